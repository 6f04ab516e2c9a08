"""Press keys on a slider in a real browser and time the way to the painted frame."""

import random
import statistics
from pathlib import Path

PROBE = (Path(__file__).parent / "probe.js").read_text(encoding="utf-8")
WARM_UP, MOVES = 10, 100


def key_to_frame(page, handle, watch):
    """Return milliseconds from key press to painted frame, one for each of MOVES moves."""
    handle.scroll_into_view_if_needed()
    handle.focus()
    page.evaluate(PROBE, watch)
    for move in range(WARM_UP + MOVES):
        page.keyboard.press("ArrowLeft" if move % 2 else "ArrowRight")
        page.wait_for_timeout(random.uniform(250, 320))  # random: no lock on the frame clock
    return page.evaluate("levelkitProbe.times")[WARM_UP:]


def storm_lag(page, handle, watch):
    """Return milliseconds from the last of 100 quick moves until the picture rests."""
    handle.focus()
    for _ in range(100):
        page.keyboard.press("ArrowLeft")
    return page.evaluate("""(watch) => new Promise((resolve) => {
        const start = performance.now();
        let seen = start;
        new MutationObserver(() => { seen = performance.now(); }).observe(
            document.querySelector(watch), {childList: true, subtree: true, characterData: true});
        const look = () => performance.now() - seen > 800 ? resolve(seen - start)
            : setTimeout(look, 50);
        look();
    })""", watch)


def summary(times):
    """Return (median, 95th percentile) of a list of times."""
    ordered = sorted(times)
    return statistics.median(ordered), ordered[int(0.95 * (len(ordered) - 1))]
