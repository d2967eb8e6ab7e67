"""The blanks of the sentence: what each asks for, its range, and what stands there before anyone has written."""

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from weighin.planning.domain.faults import IN_ANOTHER_UNIT, NOT_WHOLE, OUT_OF_BOUNDS, OUT_OF_OPEN_BOUNDS
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
from weighin.rules.faults import Said, Wrong

Slide = tuple[float, float, float]


@dataclass(frozen=True)
class Blank:
    """A blank for a figure.

    ``low`` and ``high`` are SI; ``above`` refuses ``low`` itself. ``names`` are the arguments of the models
    that the figure answers, so that their complaints come to this blank. ``slides`` are lowest, highest and
    step of its slider in each system.
    """

    label: str | Promise
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
            raise NOT_WHOLE.wrong()
        value = written.si
        if self.low <= value <= self.high and not (self.above and value == self.low):
            return written
        raise Wrong(self._out_of_range(written, system))

    def _out_of_range(self, written: Written, system: str) -> Said:
        low, high = (_bound(si, self.quantity, system) for si in (self.low, self.high))
        said = (OUT_OF_OPEN_BOUNDS if self.above else OUT_OF_BOUNDS).says(
            low=low,
            high=f"{high} {self.unit(system)}".rstrip(),
            figure=shortest(written.figure) if self.whole else str(written),
        )
        if self.quantity is TEMPERATURE:
            other = TEMPERATURE.us if written.unit is TEMPERATURE.metric else TEMPERATURE.metric
            if self.low <= other.to_si(written.figure) <= self.high:
                written_so = str(Written(written.figure, other))
                return IN_ANOTHER_UNIT.says(wrong=said, unit=other.word, written=written_so)
        return said


COUNT = HOURS  # a bare number; its unit is never shown

BLANKS: dict[str, Blank] = {
    "fish": Blank(
        gettext_lazy("The number of fish"), COUNT, 1, 1000, "7", ("fish", "boardings"), size=2, whole=True,
        slides=((1, 40, 1), (1, 40, 1)),
    ),
    "each": Blank(gettext_lazy("The weight of one fish"), FISH, 20, 10_000, "", ("mass_g",)),  # each kind has its own
    "well": Blank(
        gettext_lazy("The water in the livewell"), VOLUME, 0, 20_000, "24 gal", ("volume_l",), above=True,
        slides=((5, 60, 1), (20, 240, 5)),
    ),
    "lake": Blank(
        gettext_lazy("The lake"), TEMPERATURE, 0, 40, "80 F", ("lake_c", "fill_c"), slides=((45, 95, 1), (7, 35, 0.5)),
    ),
    "hours": Blank(gettext_lazy("The time aboard"), HOURS, 0.25, 24, "8", ("hours",), size=2, slides=((1, 14, 0.5), (1, 14, 0.5))),
    "elevation": Blank(gettext_lazy("The lake’s elevation"), ELEVATION, -500, 5400, "700 ft", ("elevation_m", "pressure_mmhg"), size=4),
    "air": Blank(
        gettext_lazy("The air"), TEMPERATURE, -20, 50, "90 F", ("air_c", "outside_c"), slides=((50, 115, 1), (10, 46, 0.5)),
    ),
    "have": Blank(gettext_lazy("The ice aboard"), ICE, 0, 2000, "", ("ice_aboard_kg",), required=False),
    "flow": Blank(
        gettext_lazy("What the pump moves"), FLOW, 0, 20_000, "400 gal/h", ("flow_l_per_h", "transfer_per_h"), size=4,
    ),
    "warm_from": Blank(gettext_lazy("The first reading"), TEMPERATURE, 0, 40, "", ("start_c",), required=False, size=4),
    "warm_to": Blank(gettext_lazy("The second reading"), TEMPERATURE, 0, 40, "", ("end_c",), required=False, size=4),
    "warm_minutes": Blank(gettext_lazy("The time between the readings"), MINUTES, 1, 720, "", (), required=False),
    "warm_air": Blank(gettext_lazy("The air at the livewell"), TEMPERATURE, -20, 70, "", (), required=False, size=4),
    "gain_from": Blank(gettext_lazy("The first reading"), OXYGEN, 0, 40, "", ("start_mg_l",), required=False, size=4),
    "gain_to": Blank(gettext_lazy("The second reading"), OXYGEN, 0, 40, "", ("end_mg_l",), required=False, size=4),
    "gain_minutes": Blank(gettext_lazy("The time between the readings"), MINUTES, 1, 720, "", (), required=False),
    "gain_water": Blank(gettext_lazy("The water then"), TEMPERATURE, 0, 40, "", (), required=False, size=4),
    "oxygen": Blank(gettext_lazy("The lake water’s oxygen"), OXYGEN, 0, 40, "", ("oxygen_mg_l",), required=False, size=4),
    "cylinder": Blank(
        gettext_lazy("Oxygen from a cylinder"), GAS, 0, 20, "", ("flow_l_per_min", "oxygen_l_per_min"), required=False, size=4,
    ),
}  # fmt: skip

CHOICES: dict[str, tuple[Promise, dict[str, str | Promise]]] = {
    "kind": (gettext_lazy("Kind of fish"), {each.name: gettext_lazy(each.words) for each in SPECIES.values()}),
    "aboard": (
        gettext_lazy("When they come aboard"),
        {"start": gettext_lazy("aboard from the start"), "day": gettext_lazy("aboard by and by")},
    ),
    "ice": (gettext_lazy("Ice"), {"yes": gettext_lazy("with ice"), "no": gettext_lazy("without ice")}),
    "pump": (
        gettext_lazy("How the pump runs"),
        {"on": gettext_lazy("without a break"), "timer": gettext_lazy("on a timer, one minute in four")},
    ),
    "lid": (gettext_lazy("The lid"), {"shut": gettext_lazy("shut"), "open": gettext_lazy("open to the air")}),
    "change": (
        gettext_lazy("Water changed"),
        {
            "3": gettext_lazy("half the water every 3 h"),
            "2.5": gettext_lazy("half every 2½ h"),
            "2": gettext_lazy("half every 2 h"),
            "never": gettext_lazy("no water"),
        },
    ),
}
FILLED = "06:00"
WARMING = ("warm_from", "warm_to", "warm_minutes", "warm_air")
GAINING = ("gain_from", "gain_to", "gain_minutes", "gain_water")
MEASURED = (*WARMING, *GAINING, "oxygen", "cylinder")


def _bound(si: float, quantity: Quantity, system: str) -> str:
    return f"{round(quantity.unit(system).from_si(si), 2):g}".replace("-", "\u2212")
