"""The forms of the roll: a word of a boat, a tow, a notice that moves the due times."""

import uuid
from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.checkin.domain.fields import NOTICE
from weighin.checkin.models import CheckIn
from weighin.events.domain.calendar import Calendar
from weighin.records.forms.declared import DeclaredForm
from weighin.records.forms.written import WrittenForm, choice, clock, count, figure, line


class _KeyedForm(WrittenForm):
    """A form that names what it writes before it is sent, so that a form sent twice is kept once."""

    id = forms.CharField(required=False, widget=forms.HiddenInput)
    optional: tuple[str, ...] = ()

    def __init__(self, data: Any = None, *, initial: dict[str, Any] | None = None):
        super().__init__(data, initial={"id": str(uuid.uuid4()), **(initial or {})})
        for name in self.optional:
            self.fields[name].required = False

    @property
    def key(self) -> uuid.UUID:
        """The id of what this form writes; a fresh one where the page's came to harm."""
        return read_key(self.data.get("id", ""))


class WordForm(_KeyedForm):
    """Where a boat is, as far as it is known."""

    optional = ("time", "word", "excused_minutes")

    whereabouts = choice(gettext_lazy("Where is the boat?"), list(CheckIn.Whereabouts.choices))
    time = clock(
        gettext_lazy("Time"), help_text=gettext_lazy("When it came in, or when it was reported. Blank is now.")
    )
    word = line(
        gettext_lazy("Report"),
        maxlength="500",
        help_text=gettext_lazy("Who reported it, and where the boat is. Only members can read it."),
    )
    excused_minutes = figure(
        gettext_lazy("Minutes excused"), unit="min", help_text=gettext_lazy("For a tow there is a page of its own.")
    )
    official = line(gettext_lazy("Recorded by"), maxlength="500")


class CorrectWordForm(WordForm):
    """A line written again, with the reason."""

    reason = line(
        gettext_lazy("Why it is corrected"), maxlength="500", help_text=gettext_lazy("Stays in the history for good.")
    )

    def __init__(self, data: Any = None, *, old: CheckIn, calendar: Calendar, official: str):
        moment = old.checked_in or old.told_at
        first = {
            "whereabouts": old.whereabouts or (CheckIn.Whereabouts.IN_BY_WATER if old.checked_in else ""),
            "time": calendar.write(old.day, moment) if moment else "",
            "word": old.word,
            "excused_minutes": old.excused_minutes,
            "official": official,
        }
        super().__init__(data, initial=first)
        self.fields["time"].help_text = gettext("Blank leaves it as it was.")


class TowForm(_KeyedForm):
    """A boat towed another in."""

    towing = count(gettext_lazy("Boat that towed"), list="boats")
    towed = count(gettext_lazy("Boat that was towed"), list="boats")
    excuse = choice(
        gettext_lazy("Who is excused?"),
        [
            ("towing", gettext_lazy("The boat that towed")),
            ("towed", gettext_lazy("The boat that was towed")),
            ("both", gettext_lazy("Both")),
        ],
        help_text=gettext_lazy("The boat that gives the tow, by common practice; the other as your rules say."),
    )
    minutes = figure(
        gettext_lazy("Minutes excused"), unit="min", help_text=gettext_lazy("In the place of any excused before.")
    )
    reason = line(
        gettext_lazy("Why"),
        maxlength="400",
        help_text=gettext_lazy("What happened, and where. Stays in the history for good."),
    )
    official = line(gettext_lazy("Recorded by"), maxlength="500")


class NoticeForm(_KeyedForm, DeclaredForm):
    """Every due time of a day moved, and the word that went out."""

    declared = NOTICE[1:]
    optional = ("minutes", "to", "given", "shortened")

    seen = forms.CharField(required=False, widget=forms.HiddenInput)
    given = clock(gettext_lazy("The boats were told at"), help_text=gettext_lazy("Blank is now."))
    shortened = forms.BooleanField(label=gettext_lazy("Call the day shortened"), required=False)


class SettleTimeForm(WrittenForm):
    """Why a boat's slip or its check-in gives way to the other."""

    reason = line(gettext_lazy("Why"), maxlength="500", help_text=gettext_lazy("Stays in the history for good."))


def read_key(text: str) -> uuid.UUID:
    """An id that a page sent along; a fresh one where it is none."""
    try:
        return uuid.UUID(text)
    except (ValueError, AttributeError):
        return uuid.uuid4()
