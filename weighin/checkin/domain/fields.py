"""What a line of the roll says, field by field."""

from django.utils.translation import gettext_lazy as _

from weighin.checkin.models import CheckIn
from weighin.events.domain.kinds import Clock, Day
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice, Count, Excuse, Name, Text
from weighin.roster.domain.kinds import Boat
from weighin.roster.domain.value_faults import BOAT_MISSING, DAY_MISSING

MOST_MINUTES = 2880

# The day first: a time of day is read on it. A cancelled day is like any other: a boat that was out when it was called
# off must be accounted for.
FIELDS = (
    Field("day", Day(), _("Day"), _("Day of the event, from 1."), required=True, missing=DAY_MISSING),
    Field("boat", Boat(), _("Boat"), _("Boat number."), required=True, missing=BOAT_MISSING),
    Field(
        "checked_in", Clock(), _("Checked in"), _("When the boat came to the check-in table, by the device's clock.")
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
    Field("word", Text(), _("Last word"), _("The last word: from whom, and where the boat is.")),
    Field("told_at", Clock(), _("Word came at"), _("When the word came, by the device's clock.")),
    Field("official", Name(), _("Official"), _("Who checked the boat in or took the word.")),
    Field("note", Text(), _("Note"), _("A note.")),
    Field("reason", Text(), _("Reason"), _("Why it is corrected or taken out."), column=""),
)
