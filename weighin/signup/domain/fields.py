"""What the terms of a sign-up and a sign-up say, field by field."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any, ClassVar

from django.utils.translation import gettext_lazy as _

from weighin.events.domain.calendar import EARLIEST, LATEST
from weighin.events.domain.kinds import Moment
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Count, Flag, Line, Text
from weighin.roster.domain import faults as roster_faults
from weighin.roster.parsing.contacts import LONGEST
from weighin.roster.parsing.entries import MOST_ANGLERS
from weighin.rules.look_alikes import name_line
from weighin.signup.domain import faults
from weighin.signup.models import Approval

MOST_PLACES = 2000
FIGURES_OF_A_PHONE = 5


@dataclass(frozen=True)
class LocalMoment(Moment):
    """A date and a time of day by the event's clock."""

    def read(self, text: str, beside: Beside) -> datetime:
        try:
            found = datetime.fromisoformat(text)
        except ValueError:
            raise faults.NOT_A_MOMENT.wrong(text=text[:40]) from None
        if len(text) < len("2026-06-01T18") or not EARLIEST <= found.date() <= LATEST:
            raise faults.NOT_A_MOMENT.wrong(text=text[:40])
        moment: datetime = found if found.tzinfo else beside.context.calendar.moment(found)
        return moment


@dataclass(frozen=True)
class Called(Line):
    """A name as teams and anglers have it."""

    def read(self, text: str, beside: Beside) -> str:
        return name_line(" ".join(text.split()), self.most)


@dataclass(frozen=True)
class Phone(Line):
    """A phone number: a line with some figures."""

    def read(self, text: str, beside: Beside) -> str:
        written = super().read(" ".join(text.split()), beside)
        if sum(sign.isdigit() for sign in written) < FIGURES_OF_A_PHONE:
            raise faults.ODD_PHONE.wrong(phone=written[:40])
        return written


@dataclass(frozen=True)
class Ticked(Flag):
    """A box: nothing written is no."""

    blank: ClassVar[bool] = False


OF_APPROVAL = tuple(Approval.choices)
TERMS = (
    Field("is_open", Flag(), _("Teams can sign up"), help=_("Yes opens the page to everybody, also of an event that is not published."), required=True, wire="", column=""),
    Field("opens", LocalMoment(), _("Opens"), help=_("Blank: at once."), wire="", column=""),
    Field("closes", LocalMoment(), _("Closes"), help=_("Blank: when the event begins, or the boats are drawn."), wire="", column=""),
    Field("places", Count(least=1, most=MOST_PLACES), _("Places"), help=_("Teams beyond them wait, in the order of payment. Blank: no limit."), wire="", column=""),
    Field("guardian_below", Count(least=1, most=30), _("A guardian’s consent under the age of"), help=_("Each team marks whether an angler is younger. Blank: nobody is asked."), wire="", column=""),
    Field("approval", Choice(OF_APPROVAL), _("Approval"), required=True, wire="", column=""),
    Field("show_teams", Flag(), _("Show the names of the entered teams on the page"), help=_("Never anglers; youth teams and teams with a minor are left out."), required=True, wire="", column=""),
    Field("note", Text(1000), _("Said on the page"), help=_("Such as how to pay, and what to bring."), wire="", column=""),
)  # fmt: skip


def _of_an_angler(number: int) -> tuple[Field, ...]:
    called: Any = {1: _("First angler"), 2: _("Second angler"), 3: _("Third angler")}[number]
    needed: dict[str, Any] = {"required": True, "missing": roster_faults.TEAM_WITHOUT_ANGLER} if number == 1 else {}
    return (
        Field(f"angler_{number}", Called(), called, wire="", column="", **needed),
        Field(f"minor_{number}", Flag(), _("Age on the first day"), wire="", column=""),
        Field(f"guardian_{number}", Called(), _("Parent or guardian"), wire="", column=""),
    )


SIGN_UP = (
    Field("name", Called(), _("Team name"), help=_("It stands on public results."), required=True, missing=roster_faults.TEAM_WITHOUT_NAME, wire="", column=""),
    *(field for number in range(1, MOST_ANGLERS + 1) for field in _of_an_angler(number)),
    Field("youth", Flag(), _("Youth team"), wire="", column=""),
    Field("consent", Ticked(), _("Consent"), wire="", column=""),
    Field("phone", Phone(LONGEST["phone"]), _("Phone"), required=True, missing=faults.PHONE_MISSING, wire="", column=""),
    Field("emergency", Line(LONGEST["emergency"]), _("Emergency contact"), help=_("Whom to call when the boat is missing."), wire="", column=""),
    Field("email", Line(LONGEST["email"]), _("E-mail"), wire="", column=""),
)  # fmt: skip
PERSONAL = tuple(field.name for field in SIGN_UP if field.name.startswith(("angler_", "guardian_"))) + tuple(LONGEST)
