"""The form of what an agency asks for beside the slips."""

from django import forms
from django.utils.translation import gettext_lazy

from weighin.events.models import Fate
from weighin.ui.forms.service import ServiceForm


class ForAgencyForm(ServiceForm):
    """Contact, county, ramp and what became of dead fish; everything may be left blank."""

    contact = forms.CharField(
        label=gettext_lazy("Contact"),
        required=False,
        max_length=200,
        help_text=gettext_lazy(
            "The club’s: name, telephone or e-mail. It stands in this report only, never on a public page."
        ),
    )
    county = forms.CharField(
        label=gettext_lazy("County"),
        required=False,
        max_length=80,
        help_text=gettext_lazy("Of the lake; kept for its next event."),
    )
    ramp = forms.CharField(
        label=gettext_lazy("Ramp"), required=False, max_length=120, help_text=gettext_lazy("Where the boats launched.")
    )
    dead_fish = forms.ChoiceField(
        label=gettext_lazy("What became of dead fish"),
        required=False,
        choices=[("", gettext_lazy("not recorded")), *Fate.choices],
        help_text=gettext_lazy(
            "As the agency and your permit say. Fish treated with a drug or an anesthetic may not be fit to eat."
        ),
    )
    dead_fish_words = forms.CharField(
        label=gettext_lazy("In words"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("Such as who took them, or what else was done."),
    )
