"""The forms at the tank: a reading, and what was put in."""

from django import forms

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import YES_NO, RowForm, shows
from weighin.records.forms.written import Written, choice, clock, figure, line
from weighin.rules.values import plain
from weighin.tanks.models import Treatment


class ReadingForm(RowForm):
    """A tank reading, in the order in which the meters are dipped. Blank is not measured."""

    clocks = ("time",)
    temperatures = ("temp",)

    day = choice("Day", [])
    tank = line("Tank", maxlength="80", list="tanks")
    temp = figure("Water")
    shows = shows()
    do = figure("Oxygen", unit="mg/L")
    fish_lb = figure("Fish in it now", unit="lb")
    volume_gal = figure("Tank holds", unit="gal")
    time = clock("Read at")
    ph = figure("pH")
    total_ammonia = figure("Total ammonia", unit="mg/L", help_text="As nitrogen, the way most kits show it.")
    salt_percent = figure("Salt", unit="%", help_text="0.5 in release tanks (Kansas).")
    note = Written(label="Note", widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))

    def suit(self, care_context: CareContext) -> None:
        lake = care_context.lake(care_context.likely_day)
        known = f" The lake: {lake.figure:f} °{lake.unit}." if lake else ""
        self.fields[
            "temp"
        ].help_text = f"At most {plain(care_context.rules.care_max_cooling_f)} °F below the lake.{known}"
        self.fields["do"].help_text = f"Keep {plain(care_context.rules.care_min_do)} or more."


class TreatmentForm(RowForm):
    """Something put into a tank, or its water changed."""

    clocks = ("started", "ended")

    day = choice("Day", [])
    tank = line("Tank", maxlength="80", list="tanks")
    what = choice("What", list(Treatment.What.choices))
    product = line("Product", maxlength="120", help_text="The name on the label.")
    dose = line("How much", maxlength="80", help_text="As you gave it: 5 lb, half the water, 2 L/min.")
    started = clock("From")
    ended = clock("Until")
    label_seen = choice(
        "Was the label seen?", YES_NO, help_text="Dose and use are as it says, and as the permit allows."
    )
    note = Written(label="Note", widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))
