"""What a weigh slip says, field by field, in the order of the work."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext_lazy as _

from weighin.checkin.domain.fields import MOST_MINUTES
from weighin.events.domain.kinds import Clock, Day, Tare, Weight, Weights
from weighin.records.domain.fields import Field, named
from weighin.records.domain.kinds import Beside, Count, Excuse, Flag, Name, Text
from weighin.roster.domain.kinds import Boat
from weighin.roster.domain.value_faults import BOAT_MISSING, DAY_MISSING
from weighin.slips.domain import faults

MOST_FISH = 1000
FISH = Count(most=MOST_FISH)


@dataclass(frozen=True)
class Spare(Count):
    """A count that a tablet may send as 0 although it was left blank before."""

    most: int = MOST_FISH

    def compared(self, value: Any, beside: Beside) -> int:
        return value or 0


FIELDS = (
    Field(
        "day",
        Day(cancelled=faults.DAY_WAS_CANCELLED),
        _("Day"),
        _("Day of the event, from 1."),
        required=True,
        missing=DAY_MISSING,
    ),
    Field("boat", Boat(), _("Boat"), _("Boat number."), required=True, missing=BOAT_MISSING),
    Field(
        "fish",
        FISH,
        _("Fish in all"),
        _("Fish on the table, alive and dead, short ones too."),
        required=True,
        missing=faults.FISH_MISSING,
        default=0,
    ),
    Field("alive", FISH, _("Alive"), _("Of them alive."), required=True, missing=faults.FISH_MISSING, default=0),
    Field("dead", FISH, _("Dead"), _("Of them dead."), required=True, missing=faults.FISH_MISSING, default=0),
    Field(
        "short",
        FISH,
        _("Short"),
        _("Of them under the minimum length. Default 0."),
        default=0,
        help=_("Of those fish, under the length: each is alive or dead as well."),
    ),
    Field("gross", Weight(), _("Scale reading"), _("The scale reading, bag included.")),
    Field("tare", Tare(), _("Bag (tare)"), _("The empty wet bag. Default: the rule sheet’s bag_tare.")),
    Field("big_fish", Weight(), _("Big fish"), _("The largest fish, weighed alone.")),
    Field(
        "big_fish_alive",
        Flag((("yes", _("Alive")), ("no", _("Dead")), ("", _("Not recorded")))),
        _("The big fish was"),
        _("Whether it was alive."),
    ),
    Field("largest_weights", Weights(), _("Largest fish"), _("The largest fish on the scale, largest first.")),
    Field(
        "black_crappie",
        FISH,
        _("Black crappie"),
        _("Black crappie, as far as counted."),
        wire="species.black_crappie",
        help=_("Spots, 7 or 8 dorsal spines."),
    ),
    Field(
        "white_crappie",
        FISH,
        _("White crappie"),
        _("White crappie, as far as counted."),
        wire="species.white_crappie",
        help=_("Bars, 5 or 6 dorsal spines."),
    ),
    Field("other_species", FISH, _("Other species"), _("Other species, as far as counted."), wire="species.other"),
    Field(
        "well_boat",
        Boat(),
        _("Held in the livewell of boat"),
        _("The boat whose livewell held the fish, when not the team’s own."),
        help=_("Only when another boat’s livewell held the fish."),
    ),
    Field("checked_in", Clock(), _("Checked in"), _("When the boat came to the check-in table.")),
    Field(
        "minutes_late",
        Count(most=MOST_MINUTES),
        _("Minutes late"),
        _("Whole minutes late, instead of checked_in."),
        help=_("Instead of the check-in time; leave out what is excused."),
    ),
    Field(
        "excused_minutes",
        Excuse(most=MOST_MINUTES),
        _("Minutes excused"),
        _("Minutes excused, such as for a tow. Default 0."),
        help=_("Come off the check-in time, such as for a tow."),
        unit="min",
    ),
    Field("bag_issued", Clock(), _("Bag issued"), _("When the team got its bag.")),
    Field("weighed", Clock(), _("Weighed"), _("When the fish were weighed, by the device’s clock."), by_stations=True),
    Field("bag_emptied", Clock(), _("Bag emptied"), _("When the bag was emptied.")),
    Field("released", Clock(), _("Released"), _("When the fish went back.")),
    Field(
        "dead_at_release",
        Spare(),
        _("Dead at release"),
        _("Fish counted alive that were dead at release."),
        help=_("Fish counted alive above. It costs no weight."),
    ),
    Field(
        "kept",
        Spare(),
        _("Kept, not released"),
        _("Live fish that are not released."),
        help=_("Live fish that do not go back."),
    ),
    Field("official", Name(), _("Official"), _("Who read the scale."), by_stations=True, help=_("Who read the scale.")),
    Field("extra_penalty", Weight(nothing=Decimal(0)), _("Extra penalty"), _("A penalty by ruling.")),
    Field("extra_penalty_reason", Text(), _("Reason of the extra penalty"), _("Its reason.")),
    Field(
        "disqualified_reason",
        Text(),
        _("Day lost by ruling, because"),
        _("Why the day is lost by ruling."),
        help=_("Written here, the whole day counts 0."),
    ),
    Field("note", Text(), _("Note"), _("A note.")),
    Field("reason", Text(), _("Why it is corrected"), _("Why it is corrected or voided.")),
)
BY_NAME = named(FIELDS)
# The version of the content that new slips are chained with; 1 did not say its version
CHAIN = max(2, *(field.since for field in FIELDS))
COUNTED = ("alive", "dead", "short", "fish", "black_crappie", "white_crappie", "other_species", "well_boat")
SPECIES = tuple(field.name for field in FIELDS if field.sent_as.startswith("species."))
ON_THE_SCALE = ("gross", "tare", "largest_weights", "big_fish", "big_fish_alive")
CLOCK = tuple(field.name for field in FIELDS if isinstance(field.kind, Clock))
LATENESS = ("minutes_late", "excused_minutes")
AT_RELEASE = ("dead_at_release", "kept")
_ELSEWHERE = {*COUNTED, *ON_THE_SCALE, *CLOCK, *LATENESS, *AT_RELEASE, "day", "boat", "official", "reason"}
# A field that nobody has put elsewhere stands here
RULINGS = tuple(field.name for field in FIELDS if field.name not in _ELSEWHERE)
