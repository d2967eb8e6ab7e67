"""The form of what an agency asks for beside the slips."""

from django import forms

from weighin.events.models import Fate
from weighin.ui.forms import ServiceForm


class ForAgencyForm(ServiceForm):
    """Contact, county, ramp and what became of dead fish; everything may be left blank."""

    contact = forms.CharField(
        label="Contact",
        required=False,
        max_length=200,
        help_text="The club's: name, telephone or e-mail. It stands in this report only, never on a public page.",
    )
    county = forms.CharField(
        label="County", required=False, max_length=80, help_text="Of the lake; kept for its next event."
    )
    ramp = forms.CharField(label="Ramp", required=False, max_length=120, help_text="Where the boats launched.")
    dead_fish = forms.ChoiceField(
        label="What became of dead fish",
        required=False,
        choices=[("", "not recorded"), *Fate.choices],
        help_text="As the agency and your permit say. Fish treated with a drug or an anesthetic may not be fit to eat.",
    )
    dead_fish_words = forms.CharField(
        label="In words", required=False, max_length=200, help_text="Such as who took them, or what else was done."
    )
