"""Forms of the pads' page."""

from django.utils.translation import gettext_lazy

from weighin.records.forms.declared import DeclaredForm, form_field
from weighin.records.forms.written import WrittenForm, choice, count, line
from weighin.slips.domain.paper import PAD, OnPaper

form_field.register(OnPaper, lambda kind, field: count(field.label))


class PadForm(DeclaredForm):
    """A pad that is handed out."""

    declared = PAD


class UnusedForm(WrittenForm):
    """Numbers that no slip comes from."""

    first = count(gettext_lazy("Number"))
    last = count(gettext_lazy("to"), help_text=gettext_lazy("Blank for one number."))
    became = choice(
        gettext_lazy("It"), [("spoiled", gettext_lazy("was spoiled")), ("blank", gettext_lazy("came back blank"))]
    )
    reason = line(gettext_lazy("Why"), maxlength="500")


class TakeBackForm(WrittenForm):
    """What was said of a number is taken back."""

    number = count(gettext_lazy("Number"))
    reason = line(gettext_lazy("Why it is voided"), maxlength="500")
