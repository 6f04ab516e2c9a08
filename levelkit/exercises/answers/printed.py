"""What many answer functions share: the printed gravity, and levels inside the range."""

GRAVITY = 9.81  # m/s2: the value that the questions state and a pocket calculator takes


def refuse_outside(work, level, weir, what="the level"):
    """Refuse data that put a level outside the range of the instrument."""
    work.refuse(not 0.0 < level < weir, f"{what} lies outside the range")
