"""Find lettering that runs into other lettering, or off the sheet."""


def overlapping(drawing):
    """Return the pairs of texts whose boxes overlap."""
    boxes = drawing.text_boxes
    return [(a.text, b.text) for i, a in enumerate(boxes) for b in boxes[i + 1:] if a.overlaps(b)]


def off_the_sheet(drawing, width, height):
    """Return the texts that leave the sheet."""
    return [box.text for box in drawing.text_boxes
            if box.left < -1 or box.top < -1 or box.right > width + 1 or box.bottom > height + 1]
