"""A natural-circulation drum boiler: its plant data and its equilibrium under load.

Water falls through unheated downcomers and rises as a mixture through heated risers;
the lighter risers drive it. The plant is the published one of a 160 MW power station,
large for a ship, but with every datum open.
"""

from dataclasses import dataclass

from ..constants import STANDARD_GRAVITY
from ..errors import checked
from .riser_void import riser_void
from .transients import BoilerInputs


@dataclass(frozen=True, slots=True)
class BoilerPlant:
    """Dimensions and coefficients of a natural-circulation drum boiler.

    The defaults are the published plant. Public sources disagree on two of them. The
    downcomer area is given as 0.38; 0.38128 makes the printed circulation of
    1194.5 kg/s, and the swell peak hardly notices (under 0.1 mm). The drum metal is
    given as 0, 100 t or 140 t, and the swell peak after +10 kg/s of steam is 35, 48 or
    54 mm with it. Total less riser metal leaves 140 t for drum and downcomers together,
    so 100 t is taken.

    Attributes
    ----------
    drum_volume, riser_volume, downcomer_volume : float [m3]
        Volumes of drum, risers and downcomers.
    drum_area : float [m2]
        Area of the water surface at normal level.
    downcomer_area : float [m2]
        Flow area of the downcomers.
    total_metal, riser_metal, drum_metal : float [kg]
        Metal of everything, of the risers and of the drum.
    metal_heat_capacity : float [J/(kg K)]
        Heat capacity of the metal.
    loop_friction : float [1]
        Friction coefficient of the circulation loop.
    carried_steam : float [1]
        Coefficient of the steam that the risers carry into the drum.
    bubble_time : float [s]
        Residence time of steam below the drum's surface.
    bubbles_below_connection : float [1]
        Share of the drum's bubbles that sit below the water connection; what they push
        up is seen by glass and transmitter. Not in the published model: 0.
    """

    drum_volume: float = 40.0
    riser_volume: float = 37.0
    downcomer_volume: float = 11.0
    drum_area: float = 20.0
    downcomer_area: float = 0.38128173
    total_metal: float = 300_000.0
    riser_metal: float = 160_000.0
    drum_metal: float = 100_000.0
    metal_heat_capacity: float = 550.0
    loop_friction: float = 25.0
    carried_steam: float = 0.3
    bubble_time: float = 12.0
    bubbles_below_connection: float = 0.0

    def __post_init__(self):
        for name in ("drum_volume", "riser_volume", "downcomer_volume"):
            checked(name.replace("_", " "), getattr(self, name), 0.01, 1000.0, "m3",
                    "Give cubic metres.")
        checked("drum area", self.drum_area, 0.01, 500.0, "m2", "Give square metres.")
        checked("downcomer area", self.downcomer_area, 1e-4, 10.0, "m2", "Give square metres.")
        checked("total metal", self.total_metal, 0.0, 1e7, "kg", "Give kilograms.")
        checked("riser metal", self.riser_metal, 0.0, self.total_metal, "kg",
                "The risers are a part of the whole.")
        checked("drum metal", self.drum_metal, 0.0, self.total_metal - self.riser_metal, "kg",
                "Drum and risers together cannot weigh more than the whole.")
        checked("heat capacity of the metal", self.metal_heat_capacity, 0.0, 2000.0, "J/(kg K)",
                "About 550 for hot steel.")
        checked("loop friction", self.loop_friction, 0.1, 1e4, "", "A pure number, 25 here.")
        checked("carried steam", self.carried_steam, 0.0, 5.0, "", "A pure number, 0.3 here.")
        checked("bubble time", self.bubble_time, 0.1, 200.0, "s", "Give seconds.")
        checked("share of bubbles below the connection", self.bubbles_below_connection,
                0.0, 1.0, "", "Give a share of one.")

    @property
    def volume(self):
        """Volume of drum, risers and downcomers [m3]."""
        return self.drum_volume + self.riser_volume + self.downcomer_volume

    def drum_water(self, water_volume, void):
        """Water in the drum itself [m3], from all the water and the riser void."""
        return water_volume - self.downcomer_volume - (1 - void) * self.riser_volume

    def circulation(self, line, void):
        """Flow down the downcomers [kg/s] that balances friction: k q^2 / 2 = driving head."""
        driving = (line.water_density * self.downcomer_area
                   * (line.water_density - line.steam_density) * STANDARD_GRAVITY
                   * void * self.riser_volume)
        return (2 * driving / self.loop_friction) ** 0.5


@dataclass(frozen=True, slots=True)
class BoilerEquilibrium:
    """A natural-circulation boiler at rest under load.

    Attributes
    ----------
    plant : BoilerPlant [m3, m2, kg]
        The boiler.
    pressure : float [Pa]
        Absolute drum pressure.
    water_volume : float [m3]
        All water in drum, risers and downcomers.
    riser_quality : float [1]
        Mass share of steam at the riser outlet.
    bubble_volume, rest_bubble_volume : float [m3]
        Bubbles below the drum's surface, and what they would be without cold feed.
    circulation_flow : float [kg/s]
        Flow through downcomers and risers.
    surface_height, collapsed_height : float [m]
        Bubbly surface and collapsed level above the model's own zero, where the drum
        would hold no water: use their differences.
    inputs : BoilerInputs [W, kg/s, J/kg]
        The inputs that keep it so.
    """

    plant: BoilerPlant
    pressure: float
    water_volume: float
    riser_quality: float
    bubble_volume: float
    rest_bubble_volume: float
    circulation_flow: float
    surface_height: float
    collapsed_height: float
    inputs: BoilerInputs


@dataclass(frozen=True, slots=True)
class BoilerTransient:
    """What a natural-circulation boiler and its instruments did.

    Attributes
    ----------
    time : array [s]
        Instants.
    pressure : array [Pa]
        Absolute drum pressure.
    mass : array [kg]
        Water and steam in the boiler.
    surface_change : array [m]
        Rise of the bubbly surface since the start.
    collapsed_change : array [m]
        Rise of the collapsed level, which head instruments see, since the start.
    water_volume, bubble_volume : array [m3]
        All water; bubbles below the drum's surface.
    riser_quality : array [1]
        Mass share of steam at the riser outlet.
    circulation_flow : array [kg/s]
        Flow down the downcomers.
    steam_flow, feed_flow : array [kg/s]
        Steam leaving (safety valve included) and feed entering.
    ended : str
        "ran to the end", or the limit at which the model stopped.
    """

    time: object
    pressure: object
    mass: object
    surface_change: object
    collapsed_change: object
    water_volume: object
    bubble_volume: object
    riser_quality: object
    circulation_flow: object
    steam_flow: object
    feed_flow: object
    ended: str


def boiler_equilibrium(saturation, plant=None, pressure=8.5e6, riser_quality=0.051,
                       condensation_flow=10.5, water_volume=57.2, bubble_volume=4.9):
    """Return the equilibrium of a natural-circulation boiler; by default the published one.

    ``Q = x h_c q_dc``, ``q_s = x q_dc - q_ct``, ``h_f = h_w - q_ct h_c / q_s``,
    ``V_sd0 = V_sd + T_d q_ct / rho_s``

    Parameters
    ----------
    saturation : callable [Pa -> object]
        Properties and slopes on the saturation line: ``properties.saturation_line``.
    plant : BoilerPlant [m3, m2, kg]
        The boiler; the published plant by default.
    pressure : float [Pa]
        Absolute drum pressure, 10 to 150 bar.
    riser_quality : float [1]
        Mass share of steam at the riser outlet, 0.001 to 0.5.
    condensation_flow : float [kg/s]
        Steam that condenses on the cold feed, at least 0.
    water_volume : float [m3]
        All water.
    bubble_volume : float [m3]
        Bubbles below the drum's surface.

    Returns
    -------
    BoilerEquilibrium
        State [Pa, m3, 1], flows [kg/s], heights [m] and the inputs that keep it.

    Raises
    ------
    InputError
        A value outside its range, water that does not fit, or feed below 0 degrees.

    References
    ----------
    [DRUM-BOILER-2000] equilibrium of the fourth-order model.

    Examples
    --------
    >>> from levelkit.properties import saturation_line
    >>> rest = boiler_equilibrium(saturation_line)
    >>> f"{rest.inputs.heat / 1e6:.3f} MW, {rest.inputs.steam_flow:.2f} kg/s"
    '85.912 MW, 50.42 kg/s'
    """
    plant = plant or BoilerPlant()
    pressure = checked("drum pressure", pressure, 10e5, 150e5, "Pa",
                       "That is 10 to 150 bar absolute, in pascal.")
    quality = checked("riser quality", riser_quality, 0.001, 0.5, "", "Give a share of one.")
    line = saturation(pressure)
    void = riser_void(quality, line).void
    flow = plant.circulation(line, void)
    condensed = checked("steam condensed by the feed", condensation_flow, 0.0, quality * flow,
                        "kg/s", "It is a part of what the risers make.")
    steam = quality * flow - condensed
    feed = line.water_enthalpy - condensed * line.latent_heat / steam
    bubbles = checked("bubble volume", bubble_volume, 1e-3, plant.drum_volume, "m3",
                      "Bubbles sit in the drum.")
    unheated = plant.downcomer_volume + (1 - void) * plant.riser_volume
    water = checked("water volume", water_volume, unheated,
                    unheated + plant.drum_volume - bubbles, "m3",
                    "Downcomers and risers are full first; water and bubbles fit into the drum.")
    in_drum = plant.drum_water(water, void)
    return BoilerEquilibrium(
        plant, pressure, water, quality, bubbles,
        bubbles + plant.bubble_time * condensed / line.steam_density, flow,
        (in_drum + bubbles) / plant.drum_area,
        (in_drum + plant.bubbles_below_connection * bubbles) / plant.drum_area,
        BoilerInputs(quality * flow * line.latent_heat, steam, steam, feed))
