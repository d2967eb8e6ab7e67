"""Forms of the results page."""

from django import forms

from weighin.ui.forms import ServiceForm


class PublishForm(ServiceForm):
    """Freeze the next official version."""

    reason = forms.CharField(
        required=False,
        max_length=500,
        label="Why there is a new version",
        help_text="Needed from version 2 on; it stands on the public page.",
    )


class CloseForm(ServiceForm):
    """Close the event, or open it again."""

    reopen_reason = forms.CharField(
        required=False, max_length=500, label="Why it is opened again", help_text="Stands in the history."
    )
