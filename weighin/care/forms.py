"""The care note, in the order of the day: ramp, water, check-in."""

from typing import Any

from django import forms

from weighin.care.domain.fields import NOTED
from weighin.care.models import CareNote
from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.temperatures import Temperature
from weighin.records.forms.written import Written, WrittenForm, choice, clock, count, figure, line
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain

SEEN = [("yes", "Yes"), ("no", "No"), ("", "Not seen")]


class NoteForm(WrittenForm):
    """How a team kept its fish on one day. Blank is not recorded."""

    seen = forms.CharField(required=False, widget=forms.HiddenInput)
    pump_ok = choice("Does the pump run?", SEEN)
    thermometer_ok = choice("Is there a thermometer that works?", SEEN)
    aeration = choice("Aeration", [*CareNote.Aeration.choices, ("", "Not seen")])
    livewell_gal = figure("Livewell holds", unit="gal")
    ice_lb = figure("Ice put in", unit="lb", help_text="0 when there is none.")
    launched = clock("Launched")
    first_fish = clock("First fish in the well", help_text="Without it the time held is an upper bound.")
    most_on_board = count("Most fish on board at once", unit="fish")
    culled = count("Culled, put back alive", unit="fish", help_text="A dead fish is no culled fish: it counts as dead.")
    livewell_temp = figure("Livewell water")
    livewell_temp_unit = choice("The thermometer shows", [("F", "°F"), ("C", "°C")])
    livewell_do = figure("Oxygen in the well", unit="mg/L")
    catch_depth_ft = figure("Caught at, deepest", unit="ft", help_text="As the crew says.")
    deep_hooked = count("Deep-hooked", unit="fish", help_text="The line is cut short, the hook stays in.")
    barotrauma = count("With signs of depth", unit="fish", help_text="Bloated, eyes standing out, cannot stay down.")
    reflexes_checked = count("Reflexes tried")
    reflexes_absent = count("of them absent")
    note = Written(label="Note", widget=forms.Textarea(attrs={"rows": 3, "maxlength": "500"}))

    def __init__(self, data: Any = None, *, rules: Rulebook, lake: Temperature | None, initial: dict[str, str]):
        first = {"livewell_temp_unit": lake.unit if lake else "F"}
        super().__init__(data, initial={**first, **initial})
        limit, lowest = rules.boat_limit, plain(rules.care_min_do)
        self.fields["most_on_board"].help_text = "" if limit is None else f"The rules allow {limit}."
        self.fields["livewell_do"].help_text = f"Keep it at {lowest} or above."
        if rules.deep_fish_kept_ft is not None:
            kept = f"From {plain(rules.deep_fish_kept_ft)} ft on they are kept, not released: the rule sheet."
            self.fields["catch_depth_ft"].help_text = f"As the crew says. {kept}"
        known = f" The lake: {lake.written()}." if lake else ""
        self.fields["livewell_temp"].help_text = f"At most {plain(rules.care_max_cooling_f)} °F below the lake.{known}"

    def written(self, data: dict[str, Any], day: int, boat: int) -> dict[str, str]:
        """What the service reads: the temperature with its unit."""
        found = {name: str(data.get(name, "")) for name in NOTED}
        warmth = found["livewell_temp"]
        if warmth and not any(sign.isalpha() for sign in warmth):
            found["livewell_temp"] = f"{warmth} {data.get('livewell_temp_unit', '')}".strip()
        return {**found, "day": str(day), "boat": str(boat)}


class SettleForm(WrittenForm):
    """Why one of two notes that contradict each other holds."""

    reason = line("Why", maxlength="300", help_text="Stands in the history, with what both notes said.")


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
