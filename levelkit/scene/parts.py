"""Pieces that several drawings share: level lines, error bracket, scale, cock, number block."""

from .lettering import spread, text_width

SMALLEST_NAME = 0.6
"""Share of the font size to which a name gives way to its value; then the value gives way too."""


def level_line(canvas, x1, x2, y, pen):
    """Draw a level line with its mark: filled for the true level, open for an indicated one."""
    canvas.line(x1, y, x2, y, pen)
    canvas.mark([(x2, y), (x2 + 9, y - 6), (x2 + 9, y + 6)], pen, filled=pen == "true")


def error_bracket(canvas, x, y_true, y_shown, reach):
    """Draw a bracket between the true and the shown level."""
    for y in (y_true, y_shown):
        canvas.line(x - reach, y, x + 5, y, "error")
    canvas.line(x, y_true, x, y_shown, "error")


def break_line(canvas, x, top, bottom):
    """Draw the wavy edge of a part that goes on beyond the sheet."""
    steps = 16
    canvas.polyline([(x + (0, 3, 0, -3)[i % 4], top + (bottom - top) * i / steps)
                     for i in range(steps + 1)], "thin")


def scale_bar(canvas, x, heights, to_y, step_label, unit_scale=1000.0, side="right"):
    """Draw a scale beside `x`: a tick at every height, a number at every labelled one."""
    out, anchor = (1, "start") if side == "right" else (-1, "end")
    canvas.line(x, to_y(heights[0]), x, to_y(heights[-1]), "thin")
    for index, height in enumerate(heights):
        labelled = index % step_label == 0
        canvas.line(x, to_y(height), x + out * (9 if labelled else 5), to_y(height), "thin")
        if labelled:
            _number_in_line(canvas, x + out * 12, to_y(height),
                            f"{height * unit_scale:.0f}".replace("-", "\u2212"), anchor)


def _number_in_line(canvas, x, y, text, anchor):
    """Write a number of a scale; a line that runs through its place is interrupted by it."""
    size = 0.85 * canvas.look.font
    width = text_width(text, size) + 6
    canvas.rect(x - 3 if anchor == "start" else x - width + 3, y - 0.5 * size, width, size, "paper")
    canvas.text(x, y + 0.3 * canvas.look.font, text, anchor, 0.85)


def cock(canvas, x, y, is_open=True, size=8.0, vertical=False):
    """Draw a cock as two triangles meeting; open ones are white, shut ones solid."""
    if vertical:
        wings = ([(x, y), (x - size, y - size), (x + size, y - size)],
                 [(x, y), (x - size, y + size), (x + size, y + size)])
    else:
        wings = ([(x, y), (x - size, y - size), (x - size, y + size)],
                 [(x, y), (x + size, y - size), (x + size, y + size)])
    for wing in wings:
        canvas.mark(wing, "outline", filled=not is_open)


def draw_eye(canvas, x, y, size=15.0):
    """Draw an eye that looks up the sheet, with the word beside it."""
    lid = [(x + size * step / 6, size / 2 * (1 - (step / 6) ** 2)) for step in range(-6, 7)]
    canvas.polygon([(at, y - rise) for at, rise in lid]
                   + [(at, y + rise) for at, rise in reversed(lid)], "paper", "outline")
    canvas.circle(x, y - size / 6, size / 4, "metal", "outline")
    canvas.text(x + size + 6, y + 0.35 * canvas.look.font, "eye")


def side_labels(canvas, x_from, x_text, labels, low, high):
    """Write labels beside heights, moved apart where they would collide.

    `labels` is a list of (y, text, pen, bold). A thin leader joins each to its height.
    """
    font = canvas.look.font
    places = spread([y for y, *_ in labels], 1.25 * font, low, high)
    for place, (y, text, pen, bold) in zip(places, labels, strict=True):
        canvas.polyline([(x_from, y), (x_text - 16, place), (x_text - 5, place)], "thin")
        canvas.text(x_text, place + 0.35 * font, text, pen=pen, bold=bold)


def dimension(canvas, x, y1, y2, text, side="left"):
    """Draw an upright dimension line with its value beside it.

    Where it is too short for two heads inside, the heads stand outside and point inwards;
    a value that has no room beside the line stands above it.
    """
    top, bottom = min(y1, y2), max(y1, y2)
    if bottom - top >= 16:
        for y1, y2 in ((bottom, top), (top, bottom)):
            canvas.arrow(x, y1, x, y2)
    else:
        canvas.line(x, top, x, bottom, "dimension")
        canvas.arrow(x, top - 14, x, top)
        canvas.arrow(x, bottom + 14, x, bottom)
    font = canvas.look.font
    roomy = bottom - top >= 1.5 * font
    baseline = (top + bottom) / 2 + 0.35 * font if roomy else top - 0.35 * font
    canvas.text(x + (-7 if side == "left" else 7), baseline, text,
                anchor="end" if side == "left" else "start", bold=True)


def number_block(canvas, x, y, width, rows, title=""):
    """Draw a ruled block of names and numbers, as the title block of a drawing.

    `rows` is a list of (name, value text, pen). Returns the y of its lower edge.
    """
    block_names(canvas, x, y, width, [(name, value) for name, value, _ in rows], title)
    return block_values(canvas, x, y, width, rows, title)


def block_names(canvas, x, y, width, rows, title=""):
    """Draw a ruled block with room for numbers; `rows` is a list of (name, value text)."""
    font = canvas.look.font
    pitch = 1.62 * font
    height = pitch * (len(rows) + bool(title))
    canvas.rect(x, y, width, height, "paper", "outline")
    if title:
        canvas.text(x + 10, y + 0.72 * pitch, title, bold=True,
                    scale=min(1.0, (width - 20) / text_width(title, font, bold=True)))
        canvas.line(x, y + pitch, x + width, y + pitch, "outline")
        y += pitch
    for index, (name, value) in enumerate(rows):
        if index:
            canvas.line(x, y + index * pitch, x + width, y + index * pitch, "thin")
        canvas.text(x + 10, y + (index + 0.7) * pitch, name, scale=_fit(name, value, width, font))


def block_values(canvas, x, y, width, rows, title=""):
    """Write the numbers into a ruled block; `rows` as in `number_block`, and its lower edge."""
    font = canvas.look.font
    pitch = 1.62 * font
    y += pitch * bool(title)
    for index, (name, value, pen) in enumerate(rows):
        room = width - 30 - SMALLEST_NAME * text_width(name, font)
        fit = min(1.0, room / max(text_width(value, font, bold=True), 1e-9))
        canvas.text(x + width - 10, y + (index + 0.7) * pitch, value, anchor="end", bold=True,
                    pen=pen, scale=fit)
    return y + pitch * len(rows)


def widest_rows(frames):
    """Return each name of a film's blocks with the widest of its values: names stand still.

    `frames` holds for each frame its list of (name, value text), the same names in all.
    """
    return [(rows[0][0], max((value for _, value in rows), key=lambda value: text_width(
        value, 1.0, bold=True))) for rows in zip(*frames, strict=True)]


def comparison_block(canvas, x, y, width, title, headings, rows):
    """Draw a ruled block whose rows hold a name and one value for each heading.

    `headings` is a list of (text, pen); each row is (name, value texts). The last columns are
    as wide as their widest text needs. Returns the y of its lower edge.
    """
    font, gap = canvas.look.font, 14
    pitch = 1.62 * font
    lines = [(title, [text for text, _ in headings]), *rows]
    canvas.rect(x, y, width, pitch * len(lines), "paper", "outline")
    wide = [max(text_width(values[column], font, bold=True) for _, values in lines)
            for column in range(len(headings))]
    longest = max(text_width(name, font, bold=not index) for index, (name, _) in enumerate(lines))
    fit = min(1.0, (width - 20 - gap * len(wide) - SMALLEST_NAME * longest) / sum(wide))
    edges, edge = [], x + width - 10
    for column in wide[::-1]:
        edges.insert(0, edge)
        edge -= gap + fit * column
    room = edge - x - 10
    for index, (name, values) in enumerate(lines):
        if index:
            canvas.line(x, y + index * pitch, x + width, y + index * pitch,
                        "outline" if index == 1 else "thin")
        baseline = y + (index + 0.7) * pitch
        canvas.text(x + 10, baseline, name, bold=not index,
                    scale=min(1.0, room / text_width(name, font, bold=not index)))
        for edge, value, (_, pen) in zip(edges, values, headings, strict=True):
            canvas.text(edge, baseline, value, anchor="end", bold=True, pen=pen, scale=fit)
    return y + pitch * len(lines)


def _fit(name, value, width, font):
    """A name that would run into its value is written smaller, never cut."""
    room = width - 30 - text_width(value, font, bold=True)
    return min(1.0, max(SMALLEST_NAME, room / max(text_width(name, font), 1e-9)))
