"""Forms of the results page."""

from django import forms

from weighin.ui.forms.fields import ClockField
from weighin.ui.forms.service import ServiceForm


class ReopenForm(ServiceForm):
    """Open a closed event again."""

    reopen_reason = forms.CharField(
        required=False, max_length=500, label="Why it is opened again", help_text="Stands in the history."
    )


class EmbargoForm(ServiceForm):
    """From when on places are held back from the crowd."""

    since = ClockField(
        required=False,
        label="From (time of today at the lake, as 14:00)",
        help_text="Blank: from now on.",
        error_messages={"invalid": "This is no time. Write it as 14:00 or 2 PM."},
    )
