"""What a line of the roll and a notice of due times say, field by field."""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from weighin.checkin.domain import faults
from weighin.checkin.models import CheckIn, DueNotice
from weighin.events.domain.kinds import Clock, Day, TimeOfDay
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Count, Excuse, Flag, Kind, Line, Name, Text
from weighin.roster.domain.kinds import Boat
from weighin.roster.domain.value_faults import BOAT_MISSING, DAY_MISSING
from weighin.rules import values

MOST_MINUTES = 2880
MOST_MOVED = 480


@dataclass(frozen=True)
class Later(Kind):
    """By how many whole minutes boats are due later; negative: earlier."""

    def read(self, text: str, beside: Beside) -> int:
        minutes = values.decimal(text, least=-MOST_MOVED, most=MOST_MOVED)
        if minutes == 0 or minutes != int(minutes):
            raise faults.NOT_WHOLE_MINUTES.wrong()
        return int(minutes)


# The day first: a time of day is read on it. A cancelled day is like any other: a boat that was out when it was called
# off must be accounted for.
FIELDS = (
    Field("day", Day(), _("Day"), _("Day of the event, from 1."), required=True, missing=DAY_MISSING),
    Field("boat", Boat(), _("Boat"), _("Boat number."), required=True, missing=BOAT_MISSING),
    Field(
        "checked_in", Clock(), _("Checked in"), _("When the boat came to the check-in table, by the device’s clock.")
    ),
    Field("minutes_late", Count(most=MOST_MINUTES), _("Minutes late"), _("Whole minutes late, instead of checked_in.")),
    Field(
        "excused_minutes",
        Excuse(most=MOST_MINUTES),
        _("Minutes excused"),
        _("Minutes excused, such as for a tow. Default 0."),
    ),
    Field(
        "whereabouts",
        Choice(tuple(CheckIn.Whereabouts.choices)),
        _("Where it is"),
        _("Where the boat is, as far as known."),
    ),
    Field("word", Text(), _("Last report"), _("The last report: from whom, and where the boat is.")),
    Field("told_at", Clock(), _("Reported at"), _("When it was reported, by the device’s clock.")),
    Field("official", Name(), _("Official"), _("Who checked the boat in or took the report.")),
    Field("note", Text(), _("Note"), _("A note.")),
    Field("reason", Text(), _("Reason"), _("Why it is corrected or voided."), column=""),
)
# The day is fished, or there is no due time to move
NOTICE = (
    Field("day", Day(cancelled=faults.DAY_NOT_FISHED), required=True, missing=DAY_MISSING),
    Field("minutes", Later(), _("By minutes"), help=_("Later; with a minus earlier. Flights keep their distance."), unit="min"),
    Field("to", TimeOfDay(), _("Or all boats at"), help=_("One time for every flight.")),
    Field("given_at", Clock()),
    Field("how", Choice(tuple(DueNotice.How.choices)), _("How"), required=True, missing=faults.NOTICE_WITHOUT_HOW),
    Field("given_by", Line(), _("Who told them"), required=True, missing=faults.NOTICE_BY_NOBODY),
    Field("reason", Text(), _("Why"), required=True, missing=faults.NOTICE_WITHOUT_REASON),
    Field("shortened", Flag(), default=False),
)  # fmt: skip
