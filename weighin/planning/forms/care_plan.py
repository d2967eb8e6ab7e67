"""What a care plan is asked for: read from the address, so that a plan can be kept as a link and printed."""

from collections.abc import Mapping
from datetime import time

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.calendar import read_clock
from weighin.line.domain.flights import MOST_FLIGHTS
from weighin.line.domain.planning import MOST_BOATS, MOST_SCALES
from weighin.line.domain.planning import Question as LineQuestion
from weighin.line.forms import minutes, whole
from weighin.livewell.figures.ranges import OutOfRange
from weighin.planning.domain.blanks import BLANKS, Blank
from weighin.planning.domain.care_plan import CarePlan, CareQuestion
from weighin.planning.domain.quantities import VOLUME, Written, read, rewritten
from weighin.ui.forms.fields import ClockInput
from weighin.ui.parsing import typed

MOST_ANGLERS = 1000
FIGURES: dict[str, Blank] = {
    "fish": BLANKS["fish"],
    "each": BLANKS["each"],
    "lake": BLANKS["lake"],
    "tank": Blank(gettext_lazy("The water in one tank"), VOLUME, 20, 20_000),
}
LABELS = {
    "fish": gettext_lazy("Limit of a boat"),
    "each": gettext_lazy("Mean weight of one fish"),
    "lake": gettext_lazy("Lake"),
    "tank": gettext_lazy("Water in one tank"),
}
HELP = {"each": gettext_lazy("From your last event on this lake, if you have one.")}


class CarePlanForm(forms.Form):
    """``given`` is what somebody wrote, ``first`` what the event says; figures are in ``units`` unless they say one.

    ``species`` and ``step_c`` are the event's: a curve of breathing, and the most that a tank may be below the lake.
    """

    use_required_attribute = False
    plan: CarePlan | None = None

    boats = whole(gettext_lazy("Boats"), 1, MOST_BOATS)
    anglers = whole(gettext_lazy("Anglers"), 1, MOST_ANGLERS)
    fish = forms.CharField()
    each = forms.CharField()
    lake = forms.CharField()
    tank = forms.CharField()
    flights = whole(gettext_lazy("Flights"), 1, MOST_FLIGHTS)
    apart = whole(
        gettext_lazy("Due so far apart"), 0, 600, help_text=gettext_lazy("With one flight this says nothing.")
    )
    due = forms.CharField(
        label=gettext_lazy("Last flight due"),
        max_length=12,
        widget=ClockInput({"size": "8"}),
        error_messages={"required": gettext_lazy("This is blank. Write a time, such as 3:00 PM.")},
    )
    over = minutes(
        gettext_lazy("A flight comes in over"), 1, 600, help_text=gettext_lazy("More and more, as before a due time.")
    )
    scales = whole(gettext_lazy("Scales"), 1, MOST_SCALES)
    boat_minutes = minutes(gettext_lazy("A boat at one scale"), 0.2, 20)
    walk = minutes(gettext_lazy("From the bag to the table"), 0, 30)
    limit = minutes(gettext_lazy("Most from boat to scales"), 1, 120)

    def __init__(self, given: Mapping[str, str], first: Mapping[str, str], *, units: str, species: str, step_c: float):
        super().__init__({name: given.get(name, self._in_units(name, first[name], units)) for name in self.base_fields})
        self.units, self.species, self.step_c = units, species, step_c
        self.written: dict[str, Written] = {}
        for name, blank in FIGURES.items():
            field = forms.CharField(
                label=LABELS[name],
                max_length=20,
                help_text=HELP.get(name, ""),
                widget=forms.TextInput({"size": "8", "autocomplete": "off", "inputmode": "decimal"}),
                error_messages={"required": gettext_lazy("Write a figure.")},
            )
            field.unit = blank.unit(units)  # type: ignore[attr-defined]
            self.fields[name] = field
        self.order_fields(list(self.base_fields))
        for name in ("apart", "over", "boat_minutes", "walk", "limit"):
            self.fields[name].unit = "min"  # type: ignore[attr-defined]

    @staticmethod
    def _in_units(name: str, text: str, units: str) -> str:
        """A first value in the units of the page."""
        if name not in FIGURES or not text:
            return text
        quantity = FIGURES[name].quantity
        return rewritten(read(text, quantity, units), quantity, units)

    def clean_due(self) -> time:
        try:
            return read_clock(typed.clock(self.cleaned_data["due"]))
        except ValueError as problem:
            raise forms.ValidationError(f"{problem}.") from None

    def clean(self) -> None:
        for name, blank in FIGURES.items():
            if self.cleaned_data.get(name):
                try:
                    self.written[name] = blank.read(self.cleaned_data[name], self.units, chosen=True)
                except ValueError as problem:
                    self.add_error(name, str(problem))
        said = self.cleaned_data
        if said.get("boats") and said.get("flights") and said["flights"] > said["boats"]:
            self.add_error("flights", gettext("There are more flights than boats: write fewer flights."))
        if said.get("boats") and said.get("anglers") and said["anglers"] < said["boats"]:
            self.add_error("anglers", gettext("There are fewer anglers than boats: check both numbers."))
        if not self.errors:
            self._work_out()

    def _work_out(self) -> None:
        said = self.cleaned_data
        plan = CarePlan(
            CareQuestion(
                anglers=said["anglers"],
                fish=int(self.written["fish"].si),
                mass_g=self.written["each"].si,
                lake_c=self.written["lake"].si,
                tank_l=self.written["tank"].si,
                step_c=self.step_c,
                species=self.species,
                line=LineQuestion(
                    boats=said["boats"],
                    over_min=said["over"],
                    boat_min=said["boat_minutes"],
                    walk_min=said["walk"],
                    limit_min=said["limit"],
                ),
                scales=said["scales"],
                flights=said["flights"],
                apart_min=said["apart"],
            )
        )
        try:
            plan.oxygen_mg_per_h  # noqa: B018 - what is out of range is told now
        except OutOfRange as problem:
            self.add_error("each" if problem.name == "mass_g" else "lake", str(problem))
        else:
            self.plan = plan
