"""Line drawing of the ball check in the water connection of a gauge glass."""

from .sheet import Sheet

_X, _HALF, _SEAT_HALF, _TOP, _SEAT, _FOOT = 220, 44, 24, 24, 92, 250
_BALL_Y, _BALL = 206, 29


def draw_ball_check(labelled):
    """Return the drawing: the ball at rest below its seat."""
    sheet = Sheet(290, labelled)
    for sign in (-1, 1):
        inner, outer, seat = _X + sign * _HALF, _X + sign * (_HALF + 30), _X + sign * _SEAT_HALF
        sheet.polygon([(outer, _TOP), (seat, _TOP), (seat, _SEAT - 24), (inner, _SEAT),
                       (inner, _FOOT), (outer, _FOOT)], "metal", "outline")
    for offset in (-30, 0, 30):
        sheet.line(_X + offset - 6, _BALL_Y + _BALL + 3, _X + offset + 6, _BALL_Y + _BALL + 3)
    sheet.line(_X - _HALF, _BALL_Y + _BALL + 3, _X - _HALF + 12, _BALL_Y + _BALL + 3)
    sheet.line(_X + _HALF - 12, _BALL_Y + _BALL + 3, _X + _HALF, _BALL_Y + _BALL + 3)
    sheet.circle(_X, _BALL_Y, _BALL, "metal", "outline")
    sheet.arrow(_X, 284, _X, 256, "true", 9)
    for x in (_X - _BALL, _X + _BALL):
        sheet.line(x, _BALL_Y, x, _BALL_Y - 48, "thin")
    sheet.arrow(_X, _BALL_Y - 44, _X - _BALL, _BALL_Y - 44)
    sheet.arrow(_X, _BALL_Y - 44, _X + _BALL, _BALL_Y - 44)
    sheet.symbol(_X, _BALL_Y - 52, "D", "middle")
    sheet.text(_X, 17, "to the glass", "middle", 0.85)
    sheet.text(_X + 12, 277, "from the drum", scale=0.85)
    sheet.text(_X + _HALF + 42, _SEAT - 6, "seat", scale=0.85)
    sheet.line(_X + _SEAT_HALF + 10, _SEAT - 12, _X + _HALF + 39, _SEAT - 10, "thin")
    sheet.text(_X + _HALF + 42, _BALL_Y + 5, "ball, density", scale=0.85)
    sheet.symbol(_X + _HALF + 134, _BALL_Y + 5, "ρ_b")
    sheet.line(_X + _BALL, _BALL_Y, _X + _HALF + 39, _BALL_Y, "thin")
    for x in (_X - _HALF, _X + _HALF):
        sheet.line(x, 130, x, 118, "thin")
    sheet.arrow(_X, 124, _X - _HALF, 124)
    sheet.arrow(_X, 124, _X + _HALF, 124)
    sheet.symbol(_X, 118, "d", "middle")
    return sheet.drawing("Ball check", (
        "An upright passage of bore d with a narrower seat above. A ball of diameter D rests on "
        "ribs below the seat; water comes from the drum below and goes on to the glass above."))
