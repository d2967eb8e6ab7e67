"""The form of a team that signs up, and those of the desk."""

from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event
from weighin.records.forms.declared import form_field
from weighin.records.forms.written import Written, WrittenForm, line, moment
from weighin.roster.parsing.entries import MOST_ANGLERS
from weighin.signup.domain.consent import consent_words
from weighin.signup.domain.fields import SIGN_UP, TERMS, LocalMoment
from weighin.signup.models import SignUpTerms
from weighin.ui import figures

LINES = range(1, MOST_ANGLERS + 1)
FILLED_BY_BROWSERS = {"phone": ("tel", "tel"), "email": ("email", "email")}


@form_field.register
def _moment(kind: LocalMoment, field: Any) -> Written:
    return moment(field.label, help_text=field.help)


class SignUpForm(WrittenForm):
    """A team: its name, its anglers with their ages, and how it is reached.

    ``stamp`` is signed by the site, ``website`` a line that people do not see.
    """

    stamp = forms.CharField(required=False, widget=forms.HiddenInput)
    website = forms.CharField(
        label=gettext_lazy("Leave this blank"),
        required=False,
        widget=forms.TextInput(attrs={"tabindex": "-1", "autocomplete": "off"}),
    )

    def __init__(self, data: Any = None, *, event: Event, terms: SignUpTerms, stamp: str):
        super().__init__(data)
        age = terms.guardian_below
        for field in SIGN_UP:
            if age is None and field.name.startswith(("minor", "guardian", "consent")):
                continue
            self.fields[field.name] = form_field(field.kind, field)
            self.fields[field.name].required = field.required
        for name, (type_of, filled) in FILLED_BY_BROWSERS.items():
            self.fields[name].widget.attrs |= {"inputmode": type_of, "autocomplete": filled}
        self.fields["youth"].help_text = gettext("Only where the event has youth teams.")
        self.fields["email"].help_text = gettext("For the team’s own link.")
        if age is not None:
            day = figures.day(event.date)
            for number in LINES:
                ages = [
                    ("no", gettext("%(age)s or older") % {"age": age}),
                    ("yes", gettext("under %(age)s") % {"age": age}),
                ]
                minor = self.fields[f"minor_{number}"]
                minor.label = gettext("Angler %(number)s: age on %(day)s") % {"number": number, "day": day}
                minor.widget = forms.RadioSelect(choices=ages)
                minor.required = number == 1
                guardian = self.fields[f"guardian_{number}"]
                guardian.label = gettext("Angler %(number)s: parent or guardian") % {"number": number}
                guardian.help_text = gettext("Only where this angler is under %(age)s.") % {"age": age}
            words = consent_words(event.club.name, event.name, age)
            self.fields["consent"] = forms.BooleanField(
                label=gettext("I consent, as a parent or guardian"), required=False, help_text=words
            )
        self.stamp_to_send, self.status = stamp, 200

    @property
    def anglers(self) -> list[list[Any]]:
        """The bound fields of each angler."""
        return [
            [
                self[name]
                for name in (f"angler_{number}", f"minor_{number}", f"guardian_{number}")
                if name in self.fields
            ]
            for number in LINES
        ]

    @property
    def reached(self) -> list[Any]:
        """The bound fields of how the team is reached."""
        return [self[name] for name in ("phone", "emergency", "email")]

    @staticmethod
    def texts(data: dict[str, Any]) -> dict[str, str]:
        """What was typed, field by field."""
        texts = {field.name: data.get(field.name) or "" for field in SIGN_UP}
        return texts | {"consent": "yes" if data.get("consent") else ""}


class TermsForm(WrittenForm):
    """The terms of an event's sign-up."""

    def __init__(self, data: Any = None, *, terms: SignUpTerms, event: Event):
        super().__init__(data, initial=None if data else self._written(terms, event))
        for field in TERMS:
            self.fields[field.name] = form_field(field.kind, field)
            self.fields[field.name].required = field.required
        self.fields["note"].widget.attrs["rows"] = 4

    @staticmethod
    def _written(terms: SignUpTerms, event: Event) -> dict[str, str]:
        found = {field.name: field.kind.text(getattr(terms, field.name)) for field in TERMS}
        for name in ("opens", "closes"):
            at = getattr(terms, name)
            found[name] = f"{at.astimezone(ZoneInfo(event.time_zone)):%Y-%m-%dT%H:%M}" if at else ""
        return found


class RefusalForm(WrittenForm):
    """Why a sign-up is refused."""

    reason = line(
        gettext_lazy("Why it is refused"), maxlength="300", help_text=gettext_lazy("The team reads it on its own page.")
    )
