"""Drawing of one kilogram: cold water, water and steam of a boiler, and the two pressure scales."""

from dataclasses import dataclass

from ..constants import BAR, ZERO_CELSIUS
from ..units import format_number
from .canvas import Canvas
from .parts import comparison_block, dimension
from .pressure_ruler import pressure_ruler

HEIGHT = 366
_RULER, _POINTER = 118, 196
_BASE, _TOP, _PER_METRE, _WALL = 304, 44, 850.0, 5
_COLD, _HOT, _STEAM = 312, 492, 634
_BLOCK, _BLOCK_WIDTH = 728, 358


@dataclass(frozen=True, slots=True)
class Kilogram:
    """One kilogram of a fluid in the tube.

    Attributes
    ----------
    temperature : float [K]
        Its temperature.
    density : float [kg/m3]
        Its density.
    height : float [m]
        How high it stands in the tube.
    """

    temperature: float
    density: float
    height: float


@dataclass(frozen=True, slots=True)
class TableLine:
    """A line of the steam table.

    Attributes
    ----------
    pressure : float [Pa]
        Absolute pressure with which the table is entered.
    temperature : float [K]
        Saturation temperature.
    water_density, steam_density : float [kg/m3]
        Densities of saturated water and steam.
    latent_heat : float [J/kg]
        Heat that turns one kilogram of the water into steam.
    """

    pressure: float
    temperature: float
    water_density: float
    steam_density: float
    latent_heat: float

    @property
    def ratio(self):
        """How many times heavier the water is than the steam."""
        return self.water_density / self.steam_density

    def errors(self, right):
        """Return the relative errors of the two densities against the right line."""
        return (self.water_density / right.water_density - 1,
                self.steam_density / right.steam_density - 1)


@dataclass(frozen=True, slots=True)
class WaterView:
    """What moves in the picture.

    Attributes
    ----------
    gauge_pressure_bar : float [bar]
        What the ship's gauge reads.
    bore : float [m]
        Inside diameter of the tubes.
    cold, water, steam : Kilogram
        One kilogram of each.
    right : TableLine
        The line of the table at the absolute pressure.
    slip : TableLine or None
        The line read where the gauge pressure is taken for absolute; None where there is none.
    show_slip : bool
        Whether the slip is shown beside the right line.
    show_truth : bool
        False covers the boiler's water and steam.
    """

    gauge_pressure_bar: float
    bore: float
    cold: Kilogram
    water: Kilogram
    steam: Kilogram
    right: TableLine
    slip: object
    show_slip: bool = False
    show_truth: bool = True


def draw_water_and_steam(view, look):
    """Return the picture of one kilogram of water and steam and the same in words.

    Parameters
    ----------
    view : WaterView [bar, m, kg/m3]
        What moves.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    pressure_ruler(canvas, _RULER, _POINTER, view.gauge_pressure_bar, view.right.pressure / BAR,
                   view.show_slip)
    _draw_kilograms(canvas, view)
    headings = [("right" if view.show_slip else "boiler", "outline")]
    if view.show_slip:
        headings.append(("slip", "error"))
    below = comparison_block(canvas, _BLOCK, 8, _BLOCK_WIDTH, "Steam table", headings,
                             _rows(view, look))
    for index, line in enumerate(_verdict(view)):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (2.1 + 1.8 * index) * look.font, line,
                    "middle", 1.4, bold=True, pen="error")
    return canvas.drawing("One kilogram of water, cold, boiling and as steam",
                          describe_water_and_steam(view))


def _draw_kilograms(canvas, view):
    font, half, known = canvas.look.font, view.bore / 2 * _PER_METRE, view.show_truth
    canvas.text((_COLD + _HOT) / 2, 20, "1 kg of water", "middle", bold=True)
    canvas.text(_STEAM, 20, "1 kg of steam", "middle", bold=True)
    cold_y, hot_y = (_BASE - part.height * _PER_METRE for part in (view.cold, view.water))
    for x, part, fill, level_y, shown in (
            (_COLD, view.cold, "water", cold_y, True),
            (_HOT, view.water, "hot water", hot_y, known),
            (_STEAM, view.steam, "steam", None, known)):
        _draw_tube(canvas, x, half, fill if shown else "hidden", level_y if shown else None)
        lines = [f"{part.temperature - ZERO_CELSIUS:.1f} \u00b0C"]
        lines += [_litres(part), _tall(part)] if shown else ["hidden"]
        for index, line in enumerate(lines if canvas.look.detail else lines[:2]):
            canvas.text(x, _BASE + _WALL + 1.2 * (1 + index) * font, line, "middle",
                        bold=index == 1)
    if known:
        x = _COLD + half + _WALL + 16
        canvas.line(_COLD + half + _WALL, cold_y, x + 6, cold_y, "true-thin")
        canvas.line(x - 6, hot_y, _HOT - half - _WALL, hot_y, "true-thin")
        dimension(canvas, x, cold_y, hot_y, f"+{_growth(view):.0f} %", "right")


def _draw_tube(canvas, x, half, fill, level_y):
    """Draw an open tube; without a level its fluid goes on beyond the top."""
    canvas.rect(x - half - _WALL, _TOP, 2 * (half + _WALL), _BASE - _TOP + _WALL, "metal",
                "outline")
    canvas.rect(x - half, _TOP, 2 * half, _BASE - _TOP, "air", "outline")
    top = _TOP if level_y is None else level_y
    canvas.rect(x - half, top, 2 * half, _BASE - top, fill, "outline")
    if level_y is not None:
        canvas.line(x - half, level_y, x + half, level_y, "true")
    elif fill == "steam":
        canvas.arrow(x, _TOP + 40, x, _TOP - 10)


def _litres(part):
    return f"{1000 / part.density:.4g} litres"


def _tall(part):
    tall = part.height
    return f"{1000 * tall:.1f} mm" if tall < 1 else f"{tall:.3g} m tall"


def _growth(view):
    """By how much the boiler water takes more room than the cold water [%]."""
    return 100 * (view.water.height / view.cold.height - 1)


def _lighter(view):
    """By how much the boiler water is lighter than the cold water [%]."""
    return 100 * (1 - view.right.water_density / view.cold.density)


def _rows(view, look):
    """Names and numbers; the slip's column begins with the pressure it enters the table with."""
    lines = [view.right, view.slip] if view.show_slip else [view.right]
    entered = [view.right.pressure / BAR, view.gauge_pressure_bar]
    numbers = [("Boils at, \u00b0C", lambda line: line.temperature - ZERO_CELSIUS, 1, True),
               ("Water, kg/m\u00b3", lambda line: line.water_density, 1, view.show_truth),
               ("Steam, kg/m\u00b3", lambda line: line.steam_density, 2, view.show_truth)]
    if look.detail:
        numbers += [("Water over steam", lambda line: line.ratio, 1, view.show_truth),
                    ("Latent heat, kJ/kg", lambda line: line.latent_heat / 1e3, 0,
                     view.show_truth)]
    rows = [("Absolute, bar", [format_number(bar, 2) for bar, _ in zip(entered, lines,
                                                                       strict=False)])]
    for name, number, decimals, known in numbers:
        rows.append((name, ["none" if line is None else
                            format_number(number(line), decimals) if known else "hidden"
                            for line in lines]))
    return rows


def _verdict(view):
    if not view.show_truth:
        return ("boiler water", "and steam hidden")
    if not view.show_slip:
        return (f"{_lighter(view):.1f} % lighter", "than cold water")
    if view.slip is None:
        return ("slip: a vacuum,", "no such line")
    water, steam = (100 * error for error in view.slip.errors(view.right))
    return (f"water {_signed(water)} %", f"steam {_signed(steam)} %")


def _signed(number):
    return ("+" if number > 0 else "") + format_number(number, 1)


def describe_water_and_steam(view):
    """Return what the picture shows, in a few sentences."""
    right = view.right
    words = (f"{view.gauge_pressure_bar:.1f} bar g is {right.pressure / BAR:.2f} bar absolute; "
             f"water boils there at {right.temperature - ZERO_CELSIUS:.1f} \u00b0C.")
    if not view.show_truth:
        return f"{words} What water and steam weigh there is hidden."
    words += (f" Water {right.water_density:.1f} kg/m\u00b3, {_lighter(view):.1f} % lighter than "
              f"cold; steam {right.steam_density:.2f} kg/m\u00b3.")
    if not view.show_slip:
        return words
    if view.slip is None:
        return (f"{words} Taken for absolute, {view.gauge_pressure_bar:.1f} bar would be a vacuum: "
                "the table has no such line.")
    water, steam = (100 * error for error in view.slip.errors(right))
    return f"{words} By the slip: water {_signed(water)} %, steam {_signed(steam)} %."
