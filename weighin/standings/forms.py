"""Forms of the results page."""

from django import forms
from django.utils.translation import gettext_lazy

from weighin.ui.forms.fields import ClockField
from weighin.ui.forms.service import ServiceForm


class ReopenForm(ServiceForm):
    """Open a closed event again."""

    reopen_reason = forms.CharField(
        required=False,
        max_length=500,
        label=gettext_lazy("Why it is opened again"),
        help_text=gettext_lazy("Stands in the history."),
    )


class EmbargoForm(ServiceForm):
    """From when on places are held back from the crowd."""

    since = ClockField(
        required=False,
        label=gettext_lazy("From (time of today at the lake, as 14:00)"),
        help_text=gettext_lazy("Blank: from now on."),
        error_messages={"invalid": gettext_lazy("This is no time. Write it as 14:00 or 2 PM.")},
    )
