"""Press keys on a slider in a real browser and time the way to the painted frame."""

import random
import statistics
from pathlib import Path

PROBE = (Path(__file__).parent / "probe.js").read_text(encoding="utf-8")
WARM_UP, MOVES = 6, 60


def wander(control):
    """Return the keys that move a slider: two steps into the longer way, one back.

    It meets new positions all the time; where that way is short, it steps on and back.
    """
    below, above = control.value - control.minimum, control.maximum - control.value
    on, back = ("ArrowRight", "ArrowLeft") if above > below else ("ArrowLeft", "ArrowRight")
    room = max(below, above) / control.step
    every = 3 if room > WARM_UP + MOVES else 2
    return [back if move % every == every - 1 else on for move in range(WARM_UP + MOVES)]


def key_to_frame(page, handle, watch, keys):
    """Return milliseconds from key press to painted frame, one for each key after the warm-up."""
    handle.scroll_into_view_if_needed()
    handle.focus()
    page.evaluate(PROBE, watch)
    for move, key in enumerate(keys):
        page.wait_for_timeout(random.uniform(150, 220))  # random: no lock on the frame clock
        page.keyboard.press(key)
        page.wait_for_function("n => levelkitProbe.times.length > n", arg=move, polling=40)
    return page.evaluate("levelkitProbe.times")[WARM_UP:]


def storm_lag(page, handle, watch, key):
    """Return milliseconds from the last of 100 quick moves until the picture rests."""
    handle.focus()
    for _ in range(100):
        page.keyboard.press(key)
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
