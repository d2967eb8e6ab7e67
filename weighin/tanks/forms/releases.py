"""The forms at the release: a batch or boat trip, a walk for floaters, fish that did not go back."""

from django import forms

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm, moment_fields, shows
from weighin.records.forms.written import Written, choice, clock, count, figure, line
from weighin.rules.values import plain
from weighin.tanks.models import FloaterWalk, KeptFish, Release


class ReleaseForm(RowForm):
    """One batch or boat trip let go at one place."""

    clocks = ("time",)
    temperatures = ("water_temp", "tank_temp")

    day = choice("Day", [])
    by = choice("How", list(Release.By.choices))
    place = line(
        "Place", maxlength="80", list="places", help_text="A name you will write again, so that the season adds up."
    )
    fish = count("Fish brought there", unit="fish")
    dead = count("Dead when let go", unit="fish", help_text="Of those brought. They do not swim off.")
    time = clock("Let go at")
    depth_ft = figure("Depth there", unit="ft", help_text="Kansas: at least 3 ft, good circulation, hard bottom.")
    distance_mi = figure("From the ramp", unit="miles")
    water_temp = figure("Lake at the place")
    tank_temp = figure("Water the fish came in")
    shows = shows()
    note = Written(label="Note", widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))

    def suit(self, care_context: CareContext) -> None:
        most = plain(care_context.rules.care_max_cooling_f)
        self.fields["tank_temp"].help_text = f"More than {most} °F apart: let lake water in first."


class WalkForm(RowForm):
    """A walk along the shore for dead fish, 24, 48 or 72 hours after the release."""

    moments = ("walked",)

    hours = choice("Hours after the release", [(str(value), words) for value, words in FloaterWalk.After.choices])
    shore = line("Shore walked", maxlength="120", list="places")
    length_mi = figure("Length", unit="miles")
    dead = count(
        "Dead fish of the event’s species",
        unit="fish",
        help_text="0 when none was found: a walk that finds none counts too.",
    )
    walked_date, walked_time = moment_fields("Walked")
    note = Written(
        label="Note",
        widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}),
        help_text="Wind, clipped fins, how long dead.",
    )


class KeptForm(RowForm):
    """Fish that did not go back."""

    day = choice("Day", [])
    fish = count("Fish", unit="fish")
    alive = choice("Were they alive at the table?", [("yes", "Alive"), ("no", "Dead")])
    went = choice("What became of them", list(KeptFish.Went.choices))
    boat = count("Of boat", help_text="Blank when they are of several.")
    receiver = line("Who took them", maxlength="120", help_text="A person or a kitchen. No telephone number.")
    came_back = count("Came back", unit="fish", help_text="Lent fish only: they belong in the tally again.")
    note = Written(label="Note", widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))
