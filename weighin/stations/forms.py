"""Forms of the pages of stations: pairing one, and entering the slips of one that had to be given up."""

from django import forms
from django.utils.translation import gettext_lazy

from weighin.records.forms.written import Written, WrittenForm
from weighin.stations.domain.cans import CANS
from weighin.ui.forms.service import ServiceForm


class CopiedForm(WrittenForm):
    """The text that a tablet shows for a slip it could not send."""

    text = Written(
        label=gettext_lazy("What the tablet shows"),
        widget=forms.Textarea(attrs={"rows": 8, "spellcheck": "false", "autocomplete": "off"}),
        help_text=gettext_lazy(
            "The text under a code, or what a reader makes of the code. Several slips, or the parts of a long one, may stand below each other in any order."
        ),
    )


class StationForm(ServiceForm):
    """What a station is called and may do."""

    name = forms.CharField(
        label=gettext_lazy("Its name"),
        max_length=80,
        help_text=gettext_lazy(
            "Where it is used, such as Table 1. A tablet paired under a name replaces the one before."
        ),
    )
    can = forms.MultipleChoiceField(
        label=gettext_lazy("It may"),
        choices=list(CANS.items()),
        widget=forms.CheckboxSelectMultiple,
        initial=["weigh"],
        error_messages={"required": gettext_lazy("Choose at least one: this tablet could do nothing.")},
    )
