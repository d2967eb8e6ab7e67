"""The form of one team in an event."""

from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Entry
from weighin.roster.parsing.contacts import LONGEST
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.queries import contact_of
from weighin.rules.sheet.keys import BY_NAME
from weighin.ui.forms.service import ServiceForm

ANGLERS = ("angler_1", "angler_2", "angler_3")
YOUTH = {"": None, "yes": True, "no": False}


class TeamForm(ServiceForm):
    """A team: boat, name, anglers, and what is agreed with it."""

    boat = forms.IntegerField(
        label=gettext_lazy("Boat"),
        min_value=1,
        required=False,
        help_text=gettext_lazy("A number no other boat of the event has. Blank: the team waits for its number."),
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )
    name = forms.CharField(
        label=gettext_lazy("Team"),
        max_length=120,
        help_text=gettext_lazy(
            "As it stands on results. The same name in another event of the season is the same team there."
        ),
    )
    angler_1 = forms.CharField(label=gettext_lazy("First angler"), max_length=120)
    angler_2 = forms.CharField(label=gettext_lazy("Second angler"), max_length=120, required=False)
    angler_3 = forms.CharField(label=gettext_lazy("Third angler"), max_length=120, required=False)
    flight_name = forms.ChoiceField(
        label=gettext_lazy("Flight"), required=False, help_text=gettext_lazy("Without one the day’s due time holds.")
    )
    status = forms.ChoiceField(
        label=gettext_lazy("Status"),
        choices=[
            (Entry.Status.ENTERED, gettext_lazy("Entered: fishes, or has fished")),
            (Entry.Status.WITHDRAWN, gettext_lazy("Withdrawn: is not placed")),
            (Entry.Status.ABSENT, gettext_lazy("Absent: entered and did not come")),
            (Entry.Status.DISQUALIFIED, gettext_lazy("Disqualified from the event by a ruling")),
        ],
        widget=forms.RadioSelect,
        initial=Entry.Status.ENTERED,
    )
    paid = forms.BooleanField(label=gettext_lazy("The entry fee is paid"), required=False)
    big_fish_pot = forms.BooleanField(label=gettext_lazy("In the big fish pot"), required=False)
    youth = forms.ChoiceField(
        label=gettext_lazy("Youth team"),
        required=False,
        choices=[("", gettext_lazy("not recorded")), ("yes", gettext_lazy("yes")), ("no", gettext_lazy("no"))],
    )
    lot = forms.IntegerField(
        label=gettext_lazy("Lot"),
        required=False,
        min_value=0,
        help_text=gettext_lazy("The number drawn when ties are broken by lot; the lower goes first."),
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )
    phone = forms.CharField(label=gettext_lazy("Phone"), required=False, max_length=LONGEST["phone"])
    emergency = forms.CharField(
        label=gettext_lazy("Emergency contact"),
        required=False,
        max_length=LONGEST["emergency"],
        help_text=gettext_lazy("Whom to call when the boat is missing."),
    )
    email = forms.CharField(
        label=gettext_lazy("E-mail"),
        required=False,
        max_length=LONGEST["email"],
        help_text=gettext_lazy(
            "Directors and the desk see these three, and whoever checks boats in while this one is out."
        ),
    )
    note = forms.CharField(
        label=gettext_lazy("Note"),
        required=False,
        max_length=500,
        help_text=gettext_lazy("For the club’s members only; it is never published."),
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def __init__(self, *args: Any, event: Event, flights: list[str], **kwargs: Any):
        super().__init__(*args, **kwargs)
        choices = [("", gettext("none")), *((name, name) for name in flights)]
        self.fields["flight_name"].choices = choices  # type: ignore[attr-defined]
        fee, pot = f"{event.entry_fee:.2f}", event.rule_sheet.written.get("big_fish_pot_fee", "0")
        self.fields["paid"].help_text = gettext("%(fee)s for this event. Only paid teams get prizes.") % {"fee": fee}
        self.fields["big_fish_pot"].help_text = gettext("%(pot)s for this event. %(meaning)s") % {
            "pot": pot,
            "meaning": BY_NAME["big_fish_pot_fee"].meaning,
        }

    @staticmethod
    def written(entry: Entry) -> dict[str, Any]:
        """An entry as the form shows it."""
        anglers = {angler.position: angler.name for angler in entry.anglers.all()}
        youth = next(word for word, value in YOUTH.items() if value == entry.youth)
        names = ("boat", "name", "flight_name", "status", "paid", "big_fish_pot", "lot", "note")
        return {
            **{name: getattr(entry, name) for name in names},
            **vars(contact_of(entry)),
            **{name: anglers.get(number, "") for number, name in enumerate(ANGLERS, start=1)},
            "youth": youth,
        }


def entry_values(data: dict[str, Any]) -> EntryValues:
    """What a valid form says, in plain values."""
    return EntryValues(
        boat=data["boat"],
        name=data["name"],
        anglers=tuple(data[name] for name in ANGLERS),
        youth=YOUTH[data["youth"]],
        flight_name=data["flight_name"],
        paid=data["paid"],
        big_fish_pot=data["big_fish_pot"],
        status=data["status"],
        lot=data["lot"],
        note=data["note"],
    )


def contact_values(data: dict[str, Any]) -> ContactValues:
    """How the team is reached, by a valid form."""
    return ContactValues(**{name: " ".join(data[name].split()) for name in LONGEST})


class RemoveTeamForm(ServiceForm):
    """Nothing to write: the team is taken out."""
