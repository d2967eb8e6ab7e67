"""The forms at the tank: a reading, and what was put in."""

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import YES_NO, RowForm, shows
from weighin.records.forms.written import Written, choice, clock, figure, line
from weighin.rules.values import plain
from weighin.tanks.models import Treatment


class ReadingForm(RowForm):
    """A tank reading, in the order in which the meters are dipped. Blank is not measured."""

    clocks = ("time",)
    temperatures = ("temp",)

    day = choice(gettext_lazy("Day"), [])
    tank = line(gettext_lazy("Tank"), maxlength="80", list="tanks")
    temp = figure(gettext_lazy("Water"))
    shows = shows()
    do = figure(gettext_lazy("Oxygen"), unit="mg/L")
    fish_lb = figure(gettext_lazy("Fish in it now"), unit="lb")
    volume_gal = figure(gettext_lazy("Tank holds"), unit="gal")
    time = clock(gettext_lazy("Read at"))
    ph = figure("pH")
    total_ammonia = figure(
        gettext_lazy("Total ammonia"), unit="mg/L", help_text=gettext_lazy("As nitrogen, the way most kits show it.")
    )
    salt_percent = figure(gettext_lazy("Salt"), unit="%", help_text=gettext_lazy("0.5 in release tanks (Kansas)."))
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))

    def suit(self, care_context: CareContext) -> None:
        lake = care_context.lake(care_context.likely_day)
        known = (
            " " + gettext("The lake: %(figure)s °%(unit)s.") % {"figure": f"{lake.figure:f}", "unit": lake.unit}
            if lake
            else ""
        )
        self.fields["temp"].help_text = (
            gettext("At most %(care_max_cooling_f)s °F below the lake.")
            % {"care_max_cooling_f": plain(care_context.rules.care_max_cooling_f)}
            + known
        )
        self.fields["do"].help_text = gettext("Keep %(care_min_do)s or more.") % {
            "care_min_do": plain(care_context.rules.care_min_do)
        }


class TreatmentForm(RowForm):
    """Something put into a tank, or its water changed."""

    clocks = ("started", "ended")

    day = choice(gettext_lazy("Day"), [])
    tank = line(gettext_lazy("Tank"), maxlength="80", list="tanks")
    what = choice(gettext_lazy("What"), list(Treatment.What.choices))
    product = line(gettext_lazy("Product"), maxlength="120", help_text=gettext_lazy("The name on the label."))
    dose = line(
        gettext_lazy("How much"),
        maxlength="80",
        help_text=gettext_lazy("As you gave it: 5 lb, half the water, 2 L/min."),
    )
    started = clock(gettext_lazy("From"))
    ended = clock(gettext_lazy("Until"))
    label_seen = choice(
        gettext_lazy("Was the label seen?"),
        YES_NO,
        help_text=gettext_lazy("Dose and use are as it says, and as the permit allows."),
    )
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))
