"""What is said in the line, the figures it is run by, and the question of the plan."""

import uuid
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy

from weighin.line.domain.fields import LONGEST_NAME, LONGEST_NOTE, MOST_OXYGEN_MINUTES, OXYGEN_MINUTES
from weighin.line.domain.planning import MOST_BOATS, LinePlan, Question, plan_line
from weighin.line.models import LineWord
from weighin.ui.forms.service import ServiceForm

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

NOT_A_PAGE = {
    "required": gettext_lazy("Load the page again, then press once more."),
    "invalid": gettext_lazy("Load the page again."),
}


def whole(label: "StrOrPromise", least: int, most: int, **kwargs: Any) -> forms.IntegerField:
    says = format_lazy(gettext_lazy("Write a whole number, {least} to {most}."), least=least, most=most)
    messages = dict.fromkeys(("required", "invalid", "min_value", "max_value"), says)
    widget = forms.TextInput(attrs={"inputmode": "numeric", "size": "5", "autocomplete": "off"})
    return forms.IntegerField(
        label=label, min_value=least, max_value=most, error_messages=messages, widget=widget, **kwargs
    )


def minutes(label: "StrOrPromise", least: float, most: float, **kwargs: Any) -> forms.FloatField:
    says = format_lazy(gettext_lazy("Write minutes, {least} to {most}."), least=f"{least:g}", most=f"{most:g}")
    messages = dict.fromkeys(("invalid", "min_value", "max_value"), says)
    widget = forms.TextInput(attrs={"inputmode": "decimal", "size": "5", "autocomplete": "off"})
    return forms.FloatField(
        label=label, min_value=least, max_value=most, error_messages=messages, widget=widget, **kwargs
    )


class SayForm(ServiceForm):
    """One thing said in the line; which fields it needs depends on ``said``."""

    word_id = forms.UUIDField(widget=forms.HiddenInput, error_messages=NOT_A_PAGE)
    day = forms.IntegerField(min_value=1, max_value=60, widget=forms.HiddenInput, error_messages=NOT_A_PAGE)
    said = forms.ChoiceField(choices=LineWord.Said.choices, widget=forms.HiddenInput, error_messages=NOT_A_PAGE)
    boat = forms.IntegerField(
        min_value=1, max_value=2**31 - 1, required=False, widget=forms.HiddenInput, error_messages=NOT_A_PAGE
    )
    person = forms.CharField(
        label=gettext_lazy("Resumed by"),
        required=False,
        max_length=LONGEST_NAME,
        error_messages={"required": gettext_lazy("Write the name of whoever resumes the line.")},
        help_text=gettext_lazy("Who decides that tanks, oxygen and line can take more boats."),
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "words"}),
    )
    oxygen_minutes = whole(gettext_lazy("Oxygen check due in"), 1, MOST_OXYGEN_MINUTES, required=False)
    remark = forms.CharField(label=gettext_lazy("Why"), required=False, max_length=LONGEST_NOTE)

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["oxygen_minutes"].unit = "min"  # type: ignore[attr-defined]
        said = self["said"].value()
        self.fields["oxygen_minutes"].required = said == LineWord.Said.HOLD
        self.fields["person"].required = said == LineWord.Said.RESUME

    def attempt_of(self, said: str) -> bool:
        """Whether this is a refused form for ``said``, to be shown again with what was written."""
        return self.is_bound and bool(self.errors) and self["said"].value() == said


def new_word(day: int, said: str, **first: Any) -> SayForm:
    """An empty form for one word, with an id of its own."""
    known = {"word_id": uuid.uuid4(), "day": day, "said": said, "oxygen_minutes": OXYGEN_MINUTES, **first}
    return SayForm(initial=known, prefix=None, auto_id=f"{said}_%s")


class TermsForm(ServiceForm):
    """What the line is run by on the day."""

    scales = whole(
        gettext_lazy("Scales in use"), 1, 10, help_text=gettext_lazy("Tables at which boats are weighed side by side.")
    )
    bags = whole(
        gettext_lazy("Bags out at once"),
        1,
        500,
        help_text=gettext_lazy("Oklahoma agency guidance: at most five bags for twenty anglers."),
    )
    walk_seconds = whole(
        gettext_lazy("From the bag to the table"), 0, 3600, help_text=gettext_lazy("Filling the bag included.")
    )
    boat_seconds = whole(
        gettext_lazy("A boat at one scale"),
        10,
        3600,
        help_text=gettext_lazy("Until boats are measured: these then count as three of them."),
    )

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        for name in ("walk_seconds", "boat_seconds"):
            self.fields[name].unit = "s"  # type: ignore[attr-defined]


class PlanForm(forms.Form):
    """How long a line: read from the address, so that a plan can be kept as a link and printed."""

    boats = whole(gettext_lazy("Boats"), 1, MOST_BOATS)
    over = minutes(gettext_lazy("They come in over"), 1, 600)
    shape = forms.ChoiceField(
        label=gettext_lazy("How they come"),
        help_text=gettext_lazy("More and more, as before a due time."),
        choices=[("bunched", gettext_lazy("more and more")), ("even", gettext_lazy("evenly"))],
        error_messages={
            "required": gettext_lazy("Choose one."),
            "invalid_choice": gettext_lazy("Choose one of the two."),
        },
    )
    boat_minutes = minutes(gettext_lazy("A boat at one scale"), 0.2, 20)
    walk = minutes(gettext_lazy("From the bag to the table"), 0, 30)
    limit = minutes(gettext_lazy("Most in the bag"), 1, 120)
    bags = whole(
        gettext_lazy("Bags there are"),
        1,
        500,
        required=False,
        help_text=gettext_lazy("Blank is as many as are called for."),
    )

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        for name in ("over", "boat_minutes", "walk", "limit"):
            self.fields[name].unit = "min"  # type: ignore[attr-defined]

    def plan(self) -> LinePlan | None:
        """The answer; None while something is to be put right."""
        if not self.is_valid():
            return None
        said = self.cleaned_data
        return plan_line(
            Question(
                boats=said["boats"],
                over_min=said["over"],
                boat_min=said["boat_minutes"],
                walk_min=said["walk"],
                limit_min=said["limit"],
                bags=said["bags"],
                shape=said["shape"],
            )
        )
