"""Forms about names: how long they are kept, the notice, an angler, an account."""

from django import forms
from django.utils.translation import gettext_lazy

from weighin.privacy.models import LONGEST_NOTICE
from weighin.ui.forms.service import ServiceForm


class KeepForm(ServiceForm):
    """How many seasons anglers' names are kept."""

    seasons = forms.IntegerField(
        label=gettext_lazy("Seasons that names are kept"),
        required=False,
        min_value=1,
        help_text=gettext_lazy("1 is the latest season alone. Blank: names are kept until they are erased."),
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )


class NoticeForm(ServiceForm):
    """The club's privacy notice."""

    notice = forms.CharField(
        label=gettext_lazy("Notice"),
        required=False,
        max_length=LONGEST_NOTICE,
        help_text=gettext_lazy("Plain text; a blank line begins a paragraph. Blank: the site’s own text stands."),
        widget=forms.Textarea(attrs={"rows": 18}),
    )


class NameForm(ServiceForm):
    """An angler, by name."""

    name = forms.CharField(
        label=gettext_lazy("Angler"),
        max_length=120,
        help_text=gettext_lazy("First and last name, as they are on the team’s line."),
        widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false"}),
    )


class EraseOldForm(ServiceForm):
    """Nothing to write: old names are erased."""


class EraseAccountForm(ServiceForm):
    """The user name once more, so that nobody is erased by mistake."""

    typed = forms.CharField(
        label=gettext_lazy("User name once more"),
        max_length=150,
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"}),
    )
