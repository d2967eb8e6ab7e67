"""Forms of one boat at the desk: a substitute, a withdrawal with what is given back, and what the desk asks for."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.records.forms.written import WrittenForm, choice, line
from weighin.registration.domain.cash import What
from weighin.registration.domain.fields import OF_A_PERSON
from weighin.registration.forms.money import Boxes, Ticks, named
from weighin.registration.models import Means
from weighin.roster.domain.seen_fields import ASKABLE
from weighin.roster.models import Entry
from weighin.ui import figures


class SubstituteForm(WrittenForm):
    """Who does not fish, who does instead, and why."""

    name = line(gettext_lazy("Substitute"), maxlength="120")
    reason = line(
        gettext_lazy("Why"),
        maxlength="200",
        help_text=gettext_lazy("The history keeps it, with who was in the team before."),
    )

    def __init__(self, data: Any = None, *, entry: Entry):
        super().__init__(data, prefix="substitute")
        anglers = [(str(one.position), one.name) for one in entry.anglers.all()]
        position = choice(gettext("Does not fish"), anglers)
        self.fields = {"position": position, **self.fields}

    def place(self, data: Mapping[str, str]) -> int:
        """The place of the angler who does not fish; 0 where none is chosen."""
        chosen = data["position"]
        return int(chosen) if chosen in ("1", "2", "3") else 0


class WithdrawForm(Boxes):
    """What is given back, how, and why the team withdraws."""

    reason = line(gettext_lazy("Why it withdraws"), maxlength="200")
    boxes = "back"

    def __init__(self, data: Any = None, *, paid: Mapping[What, Decimal], sign: str, means: str = Means.CASH):
        super().__init__(data, initial={"means": means})
        self.whats = list(paid)
        if paid:
            choices = [
                (str(place), f"{named(what)}, {figures.money(amount)}")
                for place, (what, amount) in enumerate(paid.items())
            ]
            initial = [number for number, _said in choices]
            widget = forms.CheckboxSelectMultiple
            self.put(Ticks(label=gettext("Give back"), choices=choices, widget=widget, initial=initial, required=False))
            self.fields["means"] = choice(gettext("Refunded by"), OF_A_PERSON)
        self.fields["reason"] = self.fields.pop("reason")

    def back(self, data: Mapping[str, Any]) -> list[What]:
        """What is given back."""
        return [self.whats[place] for place in self.places(data)]


class AsksForm(WrittenForm):
    """What the desk asks every team for."""

    def __init__(self, data: Any = None, *, asked: tuple[str, ...] = ()):
        super().__init__(data)
        self.fields["asked"] = Ticks(
            label=gettext("The desk asks every team for"),
            choices=ASKABLE,
            widget=forms.CheckboxSelectMultiple,
            initial=list(asked),
            required=False,
        )
