"""Reading a glass at all: from which datum, and which way an error counts."""


def read_and_compare(work, shown, visible_end, level):
    """Height above the connection, and the error against a proved level."""
    height = work.step("height", shown + visible_end)
    work.step("error", height - level)
    work.slip("from_the_window", shown)
    work.slip("window_taken_off", shown - visible_end)
    work.slip("error_from_the_window", shown - level)
