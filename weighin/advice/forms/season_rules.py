"""A season's points rules as a form."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from weighin.advice.services.season_rules import LONGEST_REASON
from weighin.events.forms.rules import RuleLine, rule_field
from weighin.rules.sheet.keys import BY_NAME, SEASON_KEYS, default_of
from weighin.ui.forms.service import ServiceForm


def reason_field(required: bool) -> forms.CharField:
    """Why rules change."""
    return forms.CharField(
        label=gettext_lazy("Why the rules change"),
        max_length=LONGEST_REASON,
        required=False,
        help_text=gettext_lazy("Needed. It stands with the change in the history.")
        if required
        else gettext_lazy("May be blank until the first fish are weighed. It stands with the change in the history."),
    )


class SeasonRulesForm(ServiceForm):
    """Every points rule; a blank one means its default. ``written`` is what stands, ``counts`` whether fish are weighed."""

    def __init__(self, *args: Any, written: Mapping[str, str], counts: bool, **kwargs: Any):
        super().__init__(*args, **kwargs)
        for name in SEASON_KEYS:
            default = default_of(BY_NAME[name], "lb")
            self.fields[name] = rule_field(RuleLine(BY_NAME[name], written.get(name) or default, default), "lb")
        self.fields["reason"] = reason_field(counts)

    def said(self) -> dict[str, str]:
        """The rules as typed."""
        return {name: self.cleaned_data[name] for name in SEASON_KEYS}

    def rules(self) -> list[forms.BoundField]:
        """The rules without the reason."""
        return [self[name] for name in SEASON_KEYS]


class ClearForm(ServiceForm):
    """Go by the latest event's rules again."""

    reason = reason_field(False)
