"""The forms at the release: a batch or boat trip, a walk for floaters, fish that did not go back."""

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm, moment_fields, shows
from weighin.records.forms.written import Written, choice, clock, count, figure, line
from weighin.rules.values import plain
from weighin.tanks.models import FloaterWalk, KeptFish, Release


class ReleaseForm(RowForm):
    """One batch or boat trip let go at one place."""

    clocks = ("time",)
    temperatures = ("water_temp", "tank_temp")

    day = choice(gettext_lazy("Day"), [])
    by = choice(gettext_lazy("How"), list(Release.By.choices))
    place = line(
        gettext_lazy("Place"),
        maxlength="80",
        list="places",
        help_text=gettext_lazy("A name you will write again, so that the season adds up."),
    )
    fish = count(gettext_lazy("Fish brought there"), unit="fish")
    dead = count(
        gettext_lazy("Dead when let go"), unit="fish", help_text=gettext_lazy("Of those brought. They do not swim off.")
    )
    time = clock(gettext_lazy("Let go at"))
    depth_ft = figure(
        gettext_lazy("Depth there"),
        unit="ft",
        help_text=gettext_lazy("Kansas: at least 3 ft, good circulation, hard bottom."),
    )
    distance_mi = figure(gettext_lazy("From the ramp"), unit="miles")
    water_temp = figure(gettext_lazy("Lake at the place"))
    tank_temp = figure(gettext_lazy("Water the fish came in"))
    shows = shows()
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))

    def suit(self, care_context: CareContext) -> None:
        most = plain(care_context.rules.care_max_cooling_f)
        self.fields["tank_temp"].help_text = gettext("More than %(most)s °F apart: let lake water in first.") % {
            "most": most
        }


class WalkForm(RowForm):
    """A walk along the shore for dead fish, 24, 48 or 72 hours after the release."""

    moments = ("walked",)

    hours = choice(
        gettext_lazy("Hours after the release"), [(str(value), words) for value, words in FloaterWalk.After.choices]
    )
    shore = line(gettext_lazy("Shore walked"), maxlength="120", list="places")
    length_mi = figure(gettext_lazy("Length"), unit="miles")
    dead = count(
        gettext_lazy("Dead fish of the event’s species"),
        unit="fish",
        help_text=gettext_lazy("0 when none was found: a walk that finds none counts too."),
    )
    walked_date, walked_time = moment_fields(gettext_lazy("Walked, date"), gettext_lazy("Walked, time"))
    note = Written(
        label=gettext_lazy("Note"),
        widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}),
        help_text=gettext_lazy("Wind, clipped fins, how long dead."),
    )


class KeptForm(RowForm):
    """Fish that did not go back."""

    day = choice(gettext_lazy("Day"), [])
    fish = count(gettext_lazy("Fish"), unit="fish")
    alive = choice(
        gettext_lazy("Were they alive at the table?"), [("yes", gettext_lazy("Alive")), ("no", gettext_lazy("Dead"))]
    )
    went = choice(gettext_lazy("What became of them"), list(KeptFish.Went.choices))
    boat = count(gettext_lazy("Of boat"), help_text=gettext_lazy("Blank when they are of several."))
    receiver = line(
        gettext_lazy("Who took them"),
        maxlength="120",
        help_text=gettext_lazy("A person or a kitchen. No telephone number."),
    )
    came_back = count(
        gettext_lazy("Came back"),
        unit="fish",
        help_text=gettext_lazy("Lent fish only: they belong in the tally again."),
    )
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))
