"""The blanks of the sentence: what each asks for, its range, and what stands there before anyone has written."""

from dataclasses import dataclass

from weighin.planning.domain.quantities import (
    ELEVATION,
    FISH,
    FLOW,
    GAS,
    HOURS,
    ICE,
    METRIC,
    MINUTES,
    OXYGEN,
    TEMPERATURE,
    VOLUME,
    Quantity,
    Written,
    read,
    shortest,
)
from weighin.planning.domain.species import FISH as SPECIES

Slide = tuple[float, float, float]


@dataclass(frozen=True)
class Blank:
    """A blank for a figure.

    ``low`` and ``high`` are SI; ``above`` refuses ``low`` itself. ``names`` are the arguments of the models
    that the figure answers, so that their complaints come to this blank. ``slides`` are lowest, highest and
    step of its slider in each system.
    """

    label: str
    quantity: Quantity
    low: float
    high: float
    default: str = ""
    names: tuple[str, ...] = ()
    above: bool = False
    required: bool = True
    size: int = 3
    whole: bool = False
    slides: tuple[Slide, Slide] | None = None

    def unit(self, system: str) -> str:
        """The unit word that stands after the blank; none after a count."""
        return "" if self.whole else self.quantity.unit(system).word

    def slide(self, system: str) -> Slide | None:
        return None if self.slides is None else self.slides[system == METRIC]

    def read(self, text: str, system: str, chosen: bool) -> Written:
        """What was written, within the range. Raises ValueError with a sentence."""
        written = read(text, self.quantity, system, chosen)
        if self.whole and written.figure != int(written.figure):
            raise ValueError("Write a whole number, such as 7.")
        value = written.si
        if self.low <= value <= self.high and not (self.above and value == self.low):
            return written
        raise ValueError(self._out_of_range(written, system))

    def _out_of_range(self, written: Written, system: str) -> str:
        unit = self.unit(system)
        low, high = (_bound(si, self.quantity, system) for si in (self.low, self.high))
        bounds = f"more than {low} and at most {high}" if self.above else f"from {low} to {high}"
        figures = shortest(written.figure) if self.whole else str(written)
        sentence = f"It must be {bounds} {unit}".rstrip() + f", not {figures}."
        if self.quantity is TEMPERATURE:
            other = TEMPERATURE.us if written.unit is TEMPERATURE.metric else TEMPERATURE.metric
            if self.low <= other.to_si(written.figure) <= self.high:
                sentence += f" If it was read in {other.word}, write {Written(written.figure, other)}."
        return sentence


COUNT = HOURS  # a bare number; its unit is never shown

BLANKS: dict[str, Blank] = {
    "fish": Blank(
        "The number of fish", COUNT, 1, 1000, "7", ("fish", "boardings"), size=2, whole=True,
        slides=((1, 40, 1), (1, 40, 1)),
    ),
    "each": Blank("The weight of one fish", FISH, 20, 10_000, "", ("mass_g",)),  # each kind has its own
    "well": Blank(
        "The water in the well", VOLUME, 0, 20_000, "24 gal", ("volume_l",), above=True,
        slides=((5, 60, 1), (20, 240, 5)),
    ),
    "lake": Blank(
        "The lake", TEMPERATURE, 0, 40, "80 F", ("lake_c", "fill_c"), slides=((45, 95, 1), (7, 35, 0.5)),
    ),
    "hours": Blank("The time aboard", HOURS, 0.25, 24, "8", ("hours",), size=2, slides=((1, 14, 0.5), (1, 14, 0.5))),
    "elevation": Blank("The lake’s elevation", ELEVATION, -500, 5400, "700 ft", ("elevation_m", "pressure_mmhg"), size=4),
    "air": Blank(
        "The air", TEMPERATURE, -20, 50, "90 F", ("air_c", "outside_c"), slides=((50, 115, 1), (10, 46, 0.5)),
    ),
    "have": Blank("The ice aboard", ICE, 0, 2000, "", ("ice_aboard_kg",), required=False),
    "flow": Blank(
        "What the pump moves", FLOW, 0, 20_000, "400 gal/h", ("flow_l_per_h", "transfer_per_h"), size=4,
    ),
    "warm_from": Blank("The first reading", TEMPERATURE, 0, 40, "", ("start_c",), required=False, size=4),
    "warm_to": Blank("The second reading", TEMPERATURE, 0, 40, "", ("end_c",), required=False, size=4),
    "warm_minutes": Blank("The time between the readings", MINUTES, 1, 720, "", (), required=False),
    "warm_air": Blank("The air at the well", TEMPERATURE, -20, 70, "", (), required=False, size=4),
    "gain_from": Blank("The first reading", OXYGEN, 0, 40, "", ("start_mg_l",), required=False, size=4),
    "gain_to": Blank("The second reading", OXYGEN, 0, 40, "", ("end_mg_l",), required=False, size=4),
    "gain_minutes": Blank("The time between the readings", MINUTES, 1, 720, "", (), required=False),
    "gain_water": Blank("The water then", TEMPERATURE, 0, 40, "", (), required=False, size=4),
    "oxygen": Blank("The lake water’s oxygen", OXYGEN, 0, 40, "", ("oxygen_mg_l",), required=False, size=4),
    "cylinder": Blank(
        "Oxygen from a cylinder", GAS, 0, 20, "", ("flow_l_per_min", "oxygen_l_per_min"), required=False, size=4,
    ),
}  # fmt: skip

CHOICES: dict[str, tuple[str, dict[str, str]]] = {
    "kind": ("Kind of fish", {each.name: each.words for each in SPECIES.values()}),
    "aboard": ("When they come aboard", {"start": "aboard from the start", "day": "aboard by and by"}),
    "ice": ("Ice", {"yes": "with ice", "no": "without ice"}),
    "pump": ("How the pump runs", {"on": "without a break", "timer": "on a timer, one minute in four"}),
    "lid": ("The lid", {"shut": "shut", "open": "open to the air"}),
    "change": (
        "Water changed",
        {"3": "half the water every 3 h", "2.5": "half every 2½ h", "2": "half every 2 h", "never": "no water"},
    ),
}
FILLED = "06:00"
WARMING = ("warm_from", "warm_to", "warm_minutes", "warm_air")
GAINING = ("gain_from", "gain_to", "gain_minutes", "gain_water")
MEASURED = (*WARMING, *GAINING, "oxygen", "cylinder")
SENTENCE = ("fish", "each", "well", "lake", "hours", "elevation", "air", "have", "flow")


def _bound(si: float, quantity: Quantity, system: str) -> str:
    return f"{round(quantity.unit(system).from_si(si), 2):g}".replace("-", "\u2212")
