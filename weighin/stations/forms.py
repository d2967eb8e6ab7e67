"""Forms of the pages of stations: pairing one, and entering the slips of one that had to be given up."""

from django import forms

from weighin.records.forms.written import Written, WrittenForm
from weighin.stations.domain.cans import CANS
from weighin.ui.forms.service import ServiceForm


class CopiedForm(WrittenForm):
    """The text that a tablet shows for a slip it could not send."""

    text = Written(
        label="What the tablet shows",
        widget=forms.Textarea(attrs={"rows": 8, "spellcheck": "false", "autocomplete": "off"}),
        help_text="The text under a code, or what a reader makes of the code. Several slips, or the parts of a long one, may stand below each other in any order.",
    )


class StationForm(ServiceForm):
    """What a station is called and may do."""

    name = forms.CharField(
        label="Its name",
        max_length=80,
        help_text="The place it stands at, such as Table 1. A tablet paired under a name takes the place of the one before.",
    )
    can = forms.MultipleChoiceField(
        label="It may",
        choices=list(CANS.items()),
        widget=forms.CheckboxSelectMultiple,
        initial=["weigh"],
        error_messages={"required": "Choose at least one: this station could do nothing."},
    )
