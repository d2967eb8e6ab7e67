"""A change of an event's rules after its first slip, as a form."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from weighin.advice.forms.season_rules import reason_field
from weighin.events.forms.rules import RulesForm
from weighin.rules.sheet.keys import KEYS

NEXT_DAY, WHOLE = "next_day", "whole_event"


class RuleChangeForm(RulesForm):
    """Every rule, why it changes, and from when on. ``may_wait`` says whether a day is still to come."""

    seen = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, may_wait: bool, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["reason"] = reason_field(True)
        if may_wait:
            self.fields["counts"] = forms.ChoiceField(
                label=gettext_lazy("The change counts"),
                choices=[
                    (NEXT_DAY, gettext_lazy("from the next day on: days already fished keep what they weighed")),
                    (WHOLE, gettext_lazy("for the whole event: the sheet was mistaken, all slips are scored again")),
                ],
                initial=NEXT_DAY,
                widget=forms.RadioSelect,
            )

    def rules(self) -> dict[str, str]:
        """The rules as typed."""
        return {key.name: self.cleaned_data[key.name] for key in KEYS if key.name in self.cleaned_data}

    @property
    def whole(self) -> bool:
        """Whether it counts for the whole event."""
        return str(self.cleaned_data.get("counts", WHOLE)) == WHOLE
