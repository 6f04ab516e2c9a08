"""The optics panel: why steam looks bright and water dark, and how stripes tell full from empty."""

from dataclasses import dataclass
from functools import lru_cache
from math import degrees, isnan, radians

import ipywidgets as widgets

from ..physics.glass_choice import REFLEX, TUBULAR
from ..physics.meniscus import Meniscus, bore_meniscus
from ..physics.optics import BOROSILICATE, SODALIME, glass_refractive_index
from ..physics.reflex_glass import GrooveView, groove_view
from ..physics.tubular_lens import LensView, TubularGlass, lens_view
from ..properties import refractive_index, saturation_at_pressure, surface_tension
from ..scene.optics import OpticsView, draw_optics
from ..scene.reflex_view import ReflexView
from ..scene.tubular_view import TubularView
from ..units import absolute_pressure
from .control import Control
from .panel import Panel
from .readings import format_plain

STRIPED, PLAIN = "diagonal stripes", "plain white"
_BORE_RADIUS, _OUTER_RADIUS = 0.006, 0.009
_NORMAL = {"gauge": REFLEX, "pressure": 7, "glass": SODALIME, "side": 0, "dirt": 0, "plate": 40,
           "backing": STRIPED, "share": 50}
_TUBE = _NORMAL | {"gauge": TUBULAR, "glass": BOROSILICATE}


@dataclass(frozen=True, slots=True)
class OpticsCase:
    """A worked-out glass, owner of every number the panel shows.

    Attributes
    ----------
    gauge : str
        "reflex glass" or "tubular glass".
    glass_index, steam_index, water_index : float [1]
        Refractive indices.
    side_angle : float [rad]
        Angle of view.
    groove : GrooveView [rad, 1]
        Brightness of both spaces of a grooved glass.
    tube : TubularGlass [m, 1]
        Tube and plate.
    behind_water, behind_steam : LensView [m, 1]
        How the plate looks through the tube.
    meniscus : Meniscus [m]
        The edge of the water in the tube.
    share : float [1]
        Share of the window that holds water.
    striped : bool
        Stripes on the plate.
    """

    gauge: str
    glass_index: float
    steam_index: float
    water_index: float
    side_angle: float
    groove: GrooveView
    tube: TubularGlass
    behind_water: LensView
    behind_steam: LensView
    meniscus: Meniscus
    share: float
    striped: bool


class OpticsPanel(Panel):
    """Light in a reflex glass and in a tubular glass at drum conditions."""

    draws_ahead = True

    title = "What the eye sees in a gauge glass"
    presets = {
        "reflex": _NORMAL,
        "reflex, dirty": _NORMAL | {"dirt": 60},
        "from the side": _NORMAL | {"side": 12},
        "reflex, 180 bar g": _NORMAL | {"pressure": 180, "glass": BOROSILICATE},
        "tube": _TUBE,
        "tube, full": _TUBE | {"share": 100},
        "tube, empty": _TUBE | {"share": 0},
        "full, plain plate": _TUBE | {"share": 100, "backing": PLAIN},
    }

    def __init__(self, barometer):
        self.barometer = barometer
        super().__init__()
        self.truth.description = "Show what the eye sees"

    def make_controls(self):
        def choice(name, options):
            return widgets.Dropdown(options=options, description=name,
                                    style={"description_width": "initial"})
        return {
            "gauge": choice("Gauge", [REFLEX, TUBULAR]),
            "glass": choice("Made of", [SODALIME, BOROSILICATE]),
            "backing": choice("Plate", [STRIPED, PLAIN]),
            "pressure": Control("Pressure", "bar g", 0, 190, 1, 7, 0),
            "share": Control("Water up to", "%", 0, 100, 1, 50, 0),
            "plate": Control("Plate behind", "mm", 12, 42, 1, 40, 0),
            "side": Control("Seen aside", "\u00b0", 0, 60, 1, 0, 0),
            "dirt": Control("Dirt, etching", "%", 0, 100, 1, 0, 0),
        }

    def _control_grid(self):
        grid = super()._control_grid()
        grid.add_class("lk-three")
        return grid

    def evaluate(self, values):
        grooved = values["gauge"] == REFLEX
        for key in ("side", "dirt"):
            self.controls[key].disabled = not grooved
        for key in ("backing", "plate"):
            self.controls[key].disabled = grooved
        state = saturation_at_pressure(absolute_pressure(values["pressure"], self.barometer))
        steam = refractive_index(state.steam_density, state.temperature)
        water = refractive_index(state.water_density, state.temperature)
        glass, side = glass_refractive_index(values["glass"]), radians(values["side"])
        tube = TubularGlass(_BORE_RADIUS, _OUTER_RADIUS, glass, values["plate"] / 1000)
        return OpticsCase(
            values["gauge"], glass, steam, water, side,
            groove_view(glass, steam, water, side, values["dirt"] / 100), tube,
            lens_view(tube, water), lens_view(tube, steam),
            _meniscus(surface_tension(state.temperature),
                      state.water_density - state.steam_density),
            values["share"] / 100, values["backing"] == STRIPED)

    def draw(self, result, look, show_truth):
        if result.gauge == REFLEX:
            glass = ReflexView(result.glass_index, result.steam_index, result.water_index,
                               result.side_angle, result.groove, result.share)
        else:
            glass = TubularView(result.tube, result.steam_index, result.water_index,
                                result.behind_water, result.behind_steam, result.meniscus,
                                result.share, result.striped)
        return draw_optics(OpticsView(glass, self._rows(result, look, show_truth), show_truth),
                           look)

    def _rows(self, case, look, show_truth):
        indices = (("Index of glass", f"{case.glass_index:.3f}"),
                   ("of steam", f"{case.steam_index:.4f}"),
                   ("of boiling water", f"{case.water_index:.3f}"))
        if not show_truth:
            return indices
        if case.gauge == REFLEX:
            groove = case.groove
            told = (("Critical, steam", _angle(groove.critical_angle_steam)),
                    ("Critical, water", _angle(groove.critical_angle_water)),
                    ("Bright / dark", f"{groove.ratio:.0f} : 1" if groove.ratio >= 10
                     else f"{groove.ratio:.1f} : 1"),
                    ("Steam bright up to", f"{degrees(groove.side_view_limit):.0f}\u00b0 aside"))
            return (*indices, *told) if look.detail else told[:3]
        told = (("Scale behind steam", _times(case.behind_steam.magnification)),
                ("Scale behind water", _times(case.behind_water.magnification)),
                ("Water edge climbs", f"{1000 * case.meniscus.depth:.1f} mm"))
        focal = ("Focal length, water", f"{1000 * case.behind_water.focal_length:.0f} mm")
        return (*indices, focal, *told) if look.detail else told

    def reading(self, result, values):
        groove = result.groove
        return {
            "drum pressure [bar g]": format_plain(values["pressure"], 0),
            "critical angle, steam [deg]": _plain_angle(groove.critical_angle_steam),
            "critical angle, water [deg]": _plain_angle(groove.critical_angle_water),
            "steam, light back [%]": format_plain(100 * groove.steam_brightness, 1),
            "water, light back [%]": format_plain(100 * groove.water_brightness, 3),
            "bright over dark [1]": format_plain(groove.ratio, 1),
            "scale behind water [1]": format_plain(result.behind_water.magnification, 2),
            "glass": values["glass"],
            "gauge": values["gauge"],
        }


@lru_cache(maxsize=64)
def _meniscus(tension, difference):
    return bore_meniscus(_BORE_RADIUS, tension, difference)


def _angle(angle):
    return "none" if isnan(angle) else f"{degrees(angle):.1f}\u00b0"


def _plain_angle(angle):
    return "none" if isnan(angle) else format_plain(degrees(angle), 2)


def _times(number):
    return f"\u00d7 {number:.2f}".replace("-", "\u2212")
