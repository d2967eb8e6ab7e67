"""Forms of money: what a team pays at the desk, another amount, a correction, a side pot, a pay-out."""

import uuid
from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import cached_property
from hashlib import sha256
from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event
from weighin.records.forms.declared import DeclaredForm
from weighin.records.forms.written import WrittenForm, choice, line
from weighin.registration.domain.cash import FEE, SIDE_POT, What
from weighin.registration.domain.faults import BOXES_CHANGED
from weighin.registration.domain.fields import OF_A_PERSON, PAYMENT
from weighin.registration.domain.fields import SIDE_POT as POT_FIELDS
from weighin.registration.models import Means, Payment
from weighin.registration.queries.cash_up import Due
from weighin.registration.queries.till import Till
from weighin.registration.services.payments import PAYMENT_RECORD
from weighin.registration.services.side_pots import SIDE_POT_RECORD
from weighin.roster.domain.kinds import named_in_forms
from weighin.rules.faults import Faults, Together
from weighin.ui import figures


def named(what: What) -> str:
    """A fee in words."""
    kind, pot = what
    return pot or str(Payment.Kind(kind).label)


class Once(WrittenForm):
    """A form that makes the id of what it sends, so that a second press keeps nothing twice."""

    key = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(self, data: Any = None, *, initial: dict[str, Any] | None = None):
        super().__init__(data, initial={"key": str(uuid.uuid4()), **(initial or {})})

    @cached_property
    def sender_key(self) -> uuid.UUID:
        """The id that this form made; a new one where it was tampered with."""
        try:
            return uuid.UUID(self.cleaned_data["key"])
        except ValueError:
            return uuid.uuid4()


class Boxes(Once):
    """A form of boxes that are ticked by their place: it knows again what the boxes of the page meant that sends it."""

    meant = forms.CharField(required=False, widget=forms.HiddenInput)
    boxes = "paid"
    meaning = ""

    def put(self, field: "Ticks") -> None:
        """Take in the boxes as they are now."""
        self.fields[self.boxes] = field
        said = repr([(value, str(label)) for value, label in field.widget.choices])
        self.meaning = self.initial["meant"] = sha256(said.encode()).hexdigest()[:16]

    def places(self, data: Mapping[str, Any]) -> list[int]:
        """The places of the boxes that were ticked. Raises Faults, and clears them, where they meant something else."""
        found = data.get(self.boxes, [])
        if found and data["meant"] not in ("", self.meaning):
            sent: Any = self.data
            again = sent.copy()
            again.setlist(self.boxes, [])
            again["meant"] = self.meaning
            self.data = again
            raise Faults([BOXES_CHANGED.at(self.boxes)])
        return [int(number) for number in found]


class Ticks(forms.MultipleChoiceField):
    """Boxes to tick; a service says, with all else, where none is."""

    def validate(self, value: Any) -> None:
        if value:
            super().validate(value)


def ticks(event: Event, fees: Mapping[What, Decimal], ticked: Sequence[str]) -> Ticks:
    """A box for each fee that a team may pay, by its place among the ``fees``."""
    choices = [
        (str(number), f"{named(what)}, {figures.money(fee)}")
        for number, (what, fee) in enumerate(fees.items())
        if what == FEE or fee or what[0] == SIDE_POT
    ]
    return Ticks(label=gettext("Pays"), choices=choices, widget=forms.CheckboxSelectMultiple, initial=ticked)


class DeskForm(Boxes):
    """A team at the desk: what it pays is ticked, and how; each tick pays what is left of that fee."""

    entry = line(gettext_lazy("Boat"), inputmode="numeric", size="6")

    def __init__(self, data: Any = None, *, till: Till, initial: dict[str, Any] | None = None):
        super().__init__(data, initial=initial)
        self.whats = list(till.fees)
        team, owed = self.initial.get("entry"), [one for one in till.cash.owed if one.amount > 0]
        owes = [one.what for one in owed if named_in_forms(till.entries[one.entry]) == team]
        ticked = [str(place) for place, what in enumerate(self.whats) if what in owes] if team else ["0"]
        self.put(ticks(till.event, till.fees, ticked))
        self.fields["means"] = choice(gettext("Paid by"), OF_A_PERSON)

    def ticked(self, data: dict[str, Any]) -> list[What]:
        """The fees that were ticked."""
        return [self.whats[place] for place in self.places(data)]


class PaymentForm(DeclaredForm, Once):
    """Any amount, given back with a minus; or a correction of a row."""

    declared = PAYMENT

    def __init__(self, data: Any = None, *, till: Till, old: Payment | None = None, entry: str = ""):
        said = PAYMENT_RECORD.texts(old) | {"reason": ""} if old else {"entry": entry}
        super().__init__(data, initial=said)
        names = [(pot.name, pot.name) for pot in till.pots]
        if names:
            self.fields["pot"].widget = forms.Select(choices=[("", gettext("none")), *names])
        else:
            del self.fields["pot"]
        if old is None:
            del self.fields["reason"]
        of_old = [(Means.NOT_RECORDED.value, Means.NOT_RECORDED.label)] if old and old.means == "not_recorded" else []
        self.fields["means"].widget = forms.RadioSelect(choices=[*OF_A_PERSON, *of_old])

    def texts(self, data: dict[str, Any]) -> dict[str, str]:
        """What the reader reads."""
        return {field.name: str(data.get(field.name) or "") for field in PAYMENT}


class SidePotForm(DeclaredForm):
    """A side pot: its name, fee and winner."""

    declared = POT_FIELDS

    def __init__(self, data: Any = None, *, old: Any = None, is_paid: bool = False):
        super().__init__(data, initial=SIDE_POT_RECORD.texts(old) | {"reason": ""} if old else {})
        if not is_paid:
            del self.fields["reason"]

    def texts(self, data: dict[str, Any]) -> dict[str, str]:
        """What the reader reads."""
        return {field.name: str(data.get(field.name) or "") for field in POT_FIELDS}


class PayOutForm(Once):
    """Which prize is handed over, how, and to whom."""

    def __init__(self, data: Any = None, *, due: Sequence[Due], sign: str):
        super().__init__(data)
        self.due = [one for one in due if one.left > 0]
        waits = any(one.waits for one in self.due)
        choices = [
            (
                str(number),
                (
                    gettext("Boat %(boat)s: %(what)s, %(amount)s; waits for protest %(protests)s")
                    if one.waits
                    else gettext("Boat %(boat)s: %(what)s, %(amount)s")
                )
                % {
                    "boat": one.boat,
                    "what": due_named(one),
                    "amount": figures.money(one.left),
                    "protests": Together(one.waits).shown(),
                },
            )
            for number, one in enumerate(self.due)
        ]
        self.fields["prize"] = forms.ChoiceField(label=gettext("Prize"), choices=choices)
        self.fields["means"] = choice(gettext("Paid by"), OF_A_PERSON)
        self.fields["received_by"] = line(gettext("Received by"), maxlength="120")
        if waits:
            self.fields["reason"] = line(
                gettext("Why it is paid although a protest can change it"),
                maxlength="500",
                help_text=gettext("Only for a prize that waits for a protest. Stands in the history for good."),
            )

    def texts(self, data: dict[str, Any]) -> dict[str, str]:
        """What the reader reads."""
        one = self.due[int(data["prize"])]
        said = {"entry": str(one.boat), "kind": one.kind, "pot": one.pot}
        own = {name: data.get(name, "") for name in ("means", "received_by", "reason")}
        return {**said, **own}


class PayeesForm(WrittenForm):
    """The sum above which the club wants payees listed."""

    above = line(
        gettext_lazy("List teams with prizes of more than"),
        inputmode="decimal",
        size="10",
        help_text=gettext_lazy("In a calendar year, over all events of the club. Blank: no list."),
    )


def due_named(due: Due) -> str:
    """What a prize is for, in words."""
    names = {"place": gettext("Place"), "big_fish_pot": gettext("Big fish pot")}
    return due.pot or names[due.kind]
