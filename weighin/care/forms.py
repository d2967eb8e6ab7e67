"""The care note, in the order of the day: ramp, water, check-in."""

from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.care.domain.fields import NOTED
from weighin.care.models import CareNote
from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.temperatures import Temperature
from weighin.records.forms.written import Written, WrittenForm, choice, clock, count, figure, line
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.ui.figures import degrees

SEEN = [("yes", gettext_lazy("Yes")), ("no", gettext_lazy("No")), ("", gettext_lazy("Not seen"))]


class NoteForm(WrittenForm):
    """How a team kept its fish on one day. Blank is not recorded."""

    seen = forms.CharField(required=False, widget=forms.HiddenInput)
    pump_ok = choice(gettext_lazy("Does the pump run?"), SEEN)
    thermometer_ok = choice(gettext_lazy("Is there a thermometer that works?"), SEEN)
    aeration = choice(gettext_lazy("Aeration"), [*CareNote.Aeration.choices, ("", gettext_lazy("Not seen"))])
    livewell_gal = figure(gettext_lazy("Livewell holds"), unit="gal")
    ice_lb = figure(gettext_lazy("Ice added"), unit="lb", help_text=gettext_lazy("0 when there is none."))
    launched = clock(gettext_lazy("Launched"))
    first_fish = clock(
        gettext_lazy("First fish in the livewell"),
        help_text=gettext_lazy("Without it the time held is an upper bound."),
    )
    most_on_board = count(gettext_lazy("Most fish on board at once"), unit=gettext_lazy("fish"))
    culled = count(
        gettext_lazy("Culled, put back alive"),
        unit=gettext_lazy("fish"),
        help_text=gettext_lazy("A dead fish is no culled fish: it counts as dead."),
    )
    livewell_temp = figure(gettext_lazy("Livewell water"))
    livewell_temp_unit = choice(gettext_lazy("The thermometer shows"), [("F", "°F"), ("C", "°C")])
    livewell_do = figure(gettext_lazy("Oxygen in the livewell"), unit="mg/L")
    catch_depth_ft = figure(
        gettext_lazy("Caught at, deepest"), unit="ft", help_text=gettext_lazy("As the anglers say.")
    )
    deep_hooked = count(
        gettext_lazy("Deep-hooked"),
        unit=gettext_lazy("fish"),
        help_text=gettext_lazy("The line is cut short, the hook stays in."),
    )
    barotrauma = count(
        gettext_lazy("With signs of depth"),
        unit=gettext_lazy("fish"),
        help_text=gettext_lazy("Bloated, eyes standing out, cannot stay down."),
    )
    reflexes_checked = count(gettext_lazy("Reflexes tried"))
    reflexes_absent = count(gettext_lazy("of them absent"))
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 3, "maxlength": "500"}))

    def __init__(self, data: Any = None, *, rules: Rulebook, lake: Temperature | None, initial: dict[str, str]):
        first = {"livewell_temp_unit": lake.unit if lake else "F"}
        super().__init__(data, initial={**first, **initial})
        limit, lowest = rules.boat_limit, plain(rules.care_min_do)
        self.fields["most_on_board"].help_text = (
            "" if limit is None else gettext("The rules allow %(limit)s.") % {"limit": limit}
        )
        self.fields["livewell_do"].help_text = gettext("Keep it at %(lowest)s or above.") % {"lowest": lowest}
        if rules.deep_fish_kept_ft is not None:
            kept = gettext("From %(deep_fish_kept_ft)s ft on the rule sheet has them kept, not released.") % {
                "deep_fish_kept_ft": plain(rules.deep_fish_kept_ft)
            }
            self.fields["catch_depth_ft"].help_text = gettext("As the anglers say.") + " " + kept
        known = " " + gettext("The lake: %(written)s.") % {"written": degrees(lake.figure, lake.unit)} if lake else ""
        self.fields["livewell_temp"].help_text = (
            gettext("At most %(care_max_cooling_f)s °F below the lake.")
            % {"care_max_cooling_f": plain(rules.care_max_cooling_f)}
            + known
        )

    def written(self, data: dict[str, Any], day: int, boat: int) -> dict[str, str]:
        """What the service reads: the temperature with its unit."""
        found = {name: str(data.get(name, "")) for name in NOTED}
        warmth = found["livewell_temp"]
        if warmth and not any(sign.isalpha() for sign in warmth):
            found["livewell_temp"] = f"{warmth} {data.get('livewell_temp_unit', '')}".strip()
        return {**found, "day": str(day), "boat": str(boat)}


class SettleForm(WrittenForm):
    """Why one of two notes that contradict each other holds."""

    reason = line(
        gettext_lazy("Why"),
        maxlength="300",
        help_text=gettext_lazy("The history shows it, with both notes."),
    )


def as_written(note: CareNote | None, calendar: Calendar) -> dict[str, str]:
    """A note's values as a form shows them again."""
    if note is None:
        return {}
    shown = {name: "" if getattr(note, name) is None else str(getattr(note, name)) for name in NOTED}
    for name in ("pump_ok", "thermometer_ok"):
        shown[name] = {None: "", True: "yes", False: "no"}[getattr(note, name)]
    for name in ("launched", "first_fish"):
        moment = getattr(note, name)
        shown[name] = calendar.write(note.day, moment) if moment else ""
    if note.livewell_temp:
        warmth = temperatures.water(note.livewell_temp)
        shown["livewell_temp"], shown["livewell_temp_unit"] = f"{warmth.figure:f}", warmth.unit
    return shown
