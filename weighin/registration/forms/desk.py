"""The desk's form of one team."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event
from weighin.records.forms.written import choice, line
from weighin.registration.domain.cash import What
from weighin.registration.domain.fields import OF_A_PERSON
from weighin.registration.forms.money import Boxes, ticks
from weighin.roster.parsing.contacts import LONGEST


class TeamAtDeskForm(Boxes):
    """A team and what it pays, in the order of the hands: known teams need the first line alone."""

    name = line(
        gettext_lazy("Team"),
        maxlength="120",
        list="earlier-teams",
        help_text=gettext_lazy("Stands on public results. Blank: the anglers’ last names."),
    )
    anglers = line(
        gettext_lazy("Anglers"), maxlength="380", help_text=gettext_lazy("One to three, with & or ; between them.")
    )
    phone = line(gettext_lazy("Phone"), maxlength=str(LONGEST["phone"]), inputmode="tel")
    emergency = line(
        gettext_lazy("Emergency contact"),
        maxlength=str(LONGEST["emergency"]),
        help_text=gettext_lazy("Whom to call when the boat is missing."),
    )
    boat = line(
        gettext_lazy("Boat"),
        inputmode="numeric",
        size="6",
        help_text=gettext_lazy("The next free number. Blank: it waits for the draw."),
    )

    def __init__(
        self,
        data: Any = None,
        *,
        event: Event,
        fees: Mapping[What, Decimal],
        flights: list[str],
        late: bool,
        ticked: list[What],
        initial: dict[str, Any],
    ):
        super().__init__(data, initial=initial)
        self.whats = list(fees)
        if flights:
            choices = [("", gettext("none")), *((name, name) for name in flights)]
            self.fields["flight_name"] = forms.CharField(
                label=gettext("Flight"), required=False, widget=forms.Select(choices=choices)
            )
        if late:
            self.fields["late"] = line(
                gettext("Why it is added late"), maxlength="200", help_text=gettext("Stands in the history for good.")
            )
        self.put(ticks(event, fees, [str(self.whats.index(what)) for what in ticked]))
        self.fields["means"] = choice(gettext("Paid by"), OF_A_PERSON)
        for name in ("phone", "emergency"):
            self.fields[name].required = False

    @property
    def texts(self) -> dict[str, str]:
        """What is written in each line, also of a form that nobody has checked yet."""
        names = ("name", "anglers", "phone", "emergency", "boat", "flight_name", "late", "means")
        return {name: self.data.get(name, "") for name in names if name in self.fields}

    def ticked(self, data: dict[str, Any]) -> list[What]:
        """The fees that were ticked."""
        return [self.whats[place] for place in self.places(data)]
