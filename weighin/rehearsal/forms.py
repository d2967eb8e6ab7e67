"""The form that begins a rehearsal."""

from django import forms
from django.utils.translation import gettext_lazy

from weighin.rehearsal.services.copying import MOST_BOATS, MOST_SEED, MOST_SPEED
from weighin.ui.forms.service import ServiceForm


class BeginForm(ServiceForm):
    """How many boats come in, how fast, and by which seed."""

    boats = forms.IntegerField(
        label=gettext_lazy("Boats"),
        min_value=1,
        max_value=MOST_BOATS,
        help_text=gettext_lazy("Fewer than your teams leaves the others for you to weigh; more are invented."),
    )
    speed = forms.FloatField(
        label=gettext_lazy("Speed"),
        min_value=1,
        max_value=MOST_SPEED,
        initial=60,
        help_text=gettext_lazy("60 lets a minute of the day pass in a second, 1 is as fast as the day itself."),
    )
    seed = forms.IntegerField(
        label=gettext_lazy("Seed"),
        min_value=0,
        max_value=MOST_SEED,
        initial=1,
        help_text=gettext_lazy("The same seed gives the same boats."),
    )
