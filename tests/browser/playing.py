"""What films have in common in the browser: playing, stepping, a kernel left alone."""

_NOTE_MESSAGES = """(() => {
    window.levelkitMessages = [];
    const note = (way, data) => {
        const text = typeof data === "string" ? data : new TextDecoder().decode(data);
        const kind = text.match(/"msg_type":\\s*"(\\w+)"/)?.[1];
        if (kind) window.levelkitMessages.push(`${way} ${kind}`);
    };
    window.WebSocket = class extends WebSocket {
        constructor(...address) {
            super(...address);
            this.addEventListener("message", (event) => note("from kernel:", event.data));
        }
        send(data) {
            note("to kernel:", data);
            return super.send(data);
        }
    };
})()"""

_COUNT_CHANGES = """([selector, attribute, milliseconds]) => new Promise((resolve) => {
    const read = () => document.querySelector(selector)?.getAttribute(attribute);
    const begin = performance.now();
    const seen = [];
    let last = read(), changed = begin, gap = 0, frames = 0;
    const look = (now) => {
        frames += 1;
        const value = read();
        if (value !== last) {
            seen.push(value);
            gap = Math.max(gap, now - changed);
            [last, changed] = [value, now];
        }
        if (now - begin < milliseconds) requestAnimationFrame(look);
        else resolve({ seen, changes: seen.length, frames, gap, seconds: (now - begin) / 1000 });
    };
    requestAnimationFrame(look);
})"""


def note_messages(page):
    """Note what page and kernel tell each other; to be said before the page is opened."""
    page.add_init_script(_NOTE_MESSAGES)


def wait_until_quiet(page):
    """Wait until page and kernel have told each other nothing for a second."""
    page.evaluate("() => { window.levelkitMessages = []; }")
    while True:
        before = page.evaluate("() => window.levelkitMessages.length")
        page.wait_for_timeout(1000)
        if page.evaluate("() => window.levelkitMessages.length") == before:
            return


def watch(page, selector, attribute, milliseconds):
    """Watch an element of a film for a while.

    Returns what painted frames showed anew (`seen`), how often (`changes`) of how many (`frames`),
    the longest time between two changes [ms], the seconds watched, and the messages to and from
    the kernel meanwhile.
    """
    page.evaluate("() => { window.levelkitMessages = []; }")
    found = page.evaluate(_COUNT_CHANGES, [selector, attribute, milliseconds])
    return found | {"messages": page.evaluate("() => window.levelkitMessages")}


def assert_plays_without_the_kernel(page, panel, selector, attribute, film):
    """Play a film: nearly every painted frame is new, many lie between the film's own frames."""
    wait_until_quiet(page)  # the still picture follows first
    panel.get_by_role("button", name="Play").focus()
    page.keyboard.press("Space")
    panel.get_by_role("button", name="Pause").wait_for()
    found = watch(page, selector, attribute, 2000)
    page.keyboard.press("Space")
    panel.get_by_role("button", name="Play").wait_for()
    part = page.locator(selector).first.get_attribute("data-part")
    own = next(values for mark, name, values in film["tracks"] if (mark, name) == (part, attribute))
    between = set(map(_numbers, found["seen"])) - set(map(_numbers, own))
    assert found["messages"] == [], "the kernel is left alone while it plays"
    assert found["changes"] > 0.8 * found["frames"]
    assert len(between) > 5


def drawn_values(panel):
    """Return what each moving element of the drawing says now, by its mark."""
    return panel.evaluate("""root => Object.fromEntries(
        [...root.querySelectorAll('[data-part]')].map(e => [e.dataset.part, Object.assign(
            {text: e.textContent}, Object.fromEntries([...e.attributes].map(
                a => [a.name, a.value])))]))""")


def assert_shows_frame(panel, film, frame):
    """Hold every moving element on the page to the film's table."""
    shown = drawn_values(panel)
    for part, attribute, values in film["tracks"]:
        value, found = values[frame], shown[part][attribute]
        if isinstance(value, str):
            assert found == value, (part, attribute)
        else:
            assert _numbers(found) == _numbers(value), (part, attribute)


def _numbers(value):
    """A number, some numbers, or the same as text, as a tuple."""
    if isinstance(value, str):
        return tuple(map(float, value.replace(",", " ").split()))
    return tuple(value) if isinstance(value, tuple | list) else (value,)
