"""What every panel is asked for on the page: names, keyboard, typing, one redraw, room, contrast.

Each function returns what it found wrong, as texts; nothing wrong is an empty list.
"""

from axe_playwright_python.sync_playwright import Axe

CONTROLS = """.lk-panel :is(input, select, button, textarea), .lk-lectern-button"""
OURS = [[".lk-panel"], [".lk-lectern-button"], [".lk-lectern"]]
GRAVE = {"serious", "critical"}
ROOMS = ((1920, 1080), (1366, 768), (1280, 720))

_NAMELESS = """(controls) => [...document.querySelectorAll(controls)].filter((e) => !(
        [...(e.labels || [])].some(label => label.textContent.trim())
        || e.getAttribute('aria-label') || e.textContent.trim() || e.title))
    .map((e) => 'no name: ' + e.outerHTML.slice(0, 120))"""

_BY_TAB = """(panel) => { // one mark for each stop that Tab has to make; a radio group is one
    const stops = [...panel.querySelectorAll('input, select, button, textarea')].filter(
        (e) => !e.disabled && e.offsetParent !== null);
    const groups = new Set();
    return stops.filter((e) => {
        if (e.type !== 'radio') return true;
        if (groups.has(e.name)) return false;
        groups.add(e.name);
        return true;
    }).map((e, index) => { e.dataset.stop = index; return index; }).length;
}"""

_COUNT_REDRAWS = """(panel) => {
    window.levelkitRedraws = 0;
    window.levelkitWatch?.disconnect();
    window.levelkitWatch = new MutationObserver((records) => {
        if (records.some((r) => [...r.addedNodes].some(
            (n) => n.nodeName.toLowerCase() === 'svg' || n.querySelector?.('svg')))) {
            window.levelkitRedraws += 1;
        }
    });
    window.levelkitWatch.observe(panel, {childList: true, subtree: true});
}"""

_TOO_WIDE = """() => {
    const found = [];
    const page = document.documentElement;
    if (page.scrollWidth > innerWidth) found.push('the page scrolls sideways');
    const room = document.querySelector('.jp-WindowedPanel-outer');
    if (room.scrollWidth > room.clientWidth + 1) found.push('the lesson scrolls sideways');
    for (const panel of document.querySelectorAll('.lk-panel')) {
        if (panel.scrollWidth > panel.clientWidth + 1) {
            found.push('cut at its side: ' + panel.querySelector('.lk-title').textContent);
        }
    }
    return found;
}"""


def nameless(page):
    """Controls that nobody could call by a name."""
    return page.evaluate(_NAMELESS, CONTROLS)


def not_reached_by_tab(page):
    """Panels of which the Tab key does not reach every control."""
    found = []
    for panel in page.locator(".lk-panel").all():
        count = panel.evaluate(_BY_TAB)
        if not count:
            continue
        panel.locator("[data-stop='0']").focus()
        seen = {panel.locator("[data-stop='0']").get_attribute("data-stop")}
        wanted = {str(index) for index in range(count)}
        for _ in range(2 * count + 10):  # a table that scrolls is a stop too
            if wanted <= seen:
                break
            page.keyboard.press("Tab")
            seen.add(page.evaluate("() => document.activeElement.dataset.stop"))
        missing = wanted - seen
        title = panel.locator(".lk-title").inner_text()
        found += [f"{title}: " + panel.locator(f"[data-stop='{index}']").evaluate(
            "e => e.outerHTML.slice(0, 120)") for index in sorted(missing)]
        panel.evaluate("p => p.querySelectorAll('[data-stop]').forEach(e => delete e.dataset.stop)")
    return found


def deaf_to_arrows(page):
    """Sliders that an arrow key does not move."""
    found = []
    for slider in page.locator(".lk-control input[type='range']:enabled").all():
        if not slider.is_visible() or slider.is_disabled():
            continue  # the one before may have switched it off
        slider.focus()
        before = float(slider.input_value())
        at_end = before >= float(slider.get_attribute("max")) - 1e-9
        page.keyboard.press("ArrowLeft" if at_end else "ArrowRight")
        if float(slider.input_value()) == before:
            found.append("no arrow key moves " + slider.evaluate("e => e.labels[0].innerText"))
        page.keyboard.press("ArrowRight" if at_end else "ArrowLeft")
    return found


def deaf_to_typing(page, panel):
    """Whether the first entry of a panel takes a decimal comma and refuses nonsense in words."""
    entry = panel.locator(".lk-entry:enabled:visible").first
    if not entry.count():
        return []
    control = entry.locator("xpath=..")
    slider = control.locator("input[type='range']")
    low, high = (float(slider.get_attribute(end)) for end in ("min", "max"))
    wanted = round(low + 0.6 * (high - low)) if high - low > 4 else low + 0.6 * (high - low)
    entry.fill(f"{wanted:.2f}".replace(".", ","))
    entry.press("Enter")
    name, found = control.locator("label").inner_text(), []
    try:
        page.wait_for_function("([e, x]) => Math.abs(Number(e.value) - x) < 1e-6 * (1 + x * x)",
                               arg=[slider.element_handle(), wanted], timeout=5000)
    except Exception:
        found.append(f"{name}: a typed {wanted:.2f} with a comma is not taken")
    entry.fill("99999")
    entry.press("Enter")
    message = control.locator(".lk-message:not(:empty)")
    try:
        message.wait_for(timeout=5000)
        words = message.inner_text()
        if "is outside" not in words or "Type a number" not in words:
            found.append(f"{name}: refused without saying why: {words}")
    except Exception:
        found.append(f"{name}: 99999 is not refused in words")
    return found


def redrawn_more_than_once(page, panel, label):
    """Whether a preset or Reset takes other than one redraw."""
    panel.evaluate(_COUNT_REDRAWS)
    panel.get_by_role("button", name=label, exact=True).first.click()
    page.wait_for_timeout(400)
    count = page.evaluate("() => window.levelkitRedraws")
    return [] if count <= 1 else [f"{label} takes {count} redraws"]


def too_wide(page):
    """Rooms in which a person would have to scroll sideways."""
    found = []
    for width, height in ROOMS:  # the last is the size that the page is left in
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_timeout(150)
        found += [f"{width}x{height}: {fault}" for fault in page.evaluate(_TOO_WIDE)]
    return found


def grave_faults(page):
    """Serious and critical findings of axe inside what is ours."""
    present = [part for part in OURS if page.locator(part[0]).count()]
    result = Axe().run(page, {"include": present}, {
        "resultTypes": ["violations"],
        "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"]})
    return [f"{violation['id']}: {node['html'][:140]} {node.get('failureSummary', '')[:200]}"
            for violation in result.response["violations"] if violation["impact"] in GRAVE
            for node in violation["nodes"]]


def too_tall_when_presented(page):
    """Panels that do not fit above the bar of a presentation, when each is the step shown."""
    page.get_by_role("button", name="Present this lesson").click()
    page.wait_for_timeout(700)
    room = page.get_by_role("group", name="Presentation").bounding_box()["y"]
    found = []
    last = int(page.locator(".lk-lectern-where").inner_text().split(" of ")[1].split(":")[0])
    for _ in range(last):
        page.keyboard.press("PageDown")
    for panel in page.locator(".lk-panel:has(.lk-picture, .lk-player)").all():
        height = panel.bounding_box()["height"]
        if height > room:
            found.append(f"{panel.locator('.lk-title').inner_text()}: {height:.0f} of {room:.0f}")
    page.get_by_role("button", name="End", exact=True).click()
    return found
