"""What readings, treatments, releases, walks and kept fish say, field by field, in the order of workbook and page."""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from weighin.events.domain.kinds import Clock, DateAndTime, Day, Moment, WaterTemperature
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Count, Figure, Flag, Line, Text
from weighin.roster.domain.kinds import LARGEST, Boat
from weighin.rules import values
from weighin.tanks.domain import faults
from weighin.tanks.models import FloaterWalk, KeptFish, Release, Treatment

MOST_FISH = 100_000
TANK = Line(80, "tanks")
PLACE = Line(80, "places")
SOME_FISH = Count(1, MOST_FISH)
FISH = Count(0, MOST_FISH)
MILES = Figure(most=500)
SEEN = (("yes", _("Yes")), ("no", _("No")), ("", _("Not seen")))
ALIVE = (("yes", _("Alive")), ("no", _("Dead")))


@dataclass(frozen=True)
class Hours(Choice):
    """Hours after the release at which the shore is walked."""

    def read(self, text: str, beside: Beside) -> int:
        hours = values.whole(text, most=1000)
        if str(hours) not in self.choices:
            raise faults.ODD_WALK_HOURS.wrong(hours=hours)
        return hours


DAY = Field("day", Day(), _("Day"), required=True)
NOTE = Field("note", Text(), _("Note"))
READING = (
    DAY,
    Field("tank", TANK, _("Tank"), required=True),
    Field("volume_gal", Figure(), _("Tank holds"), unit="gal"),
    Field("time", Clock(), _("Read at"), required=True),
    Field("temp", WaterTemperature(), _("Water")),
    Field("do", Figure(most=60), _("Oxygen"), unit="mg/L"),
    Field("ph", Figure(most=14), _("pH")),
    Field(
        "total_ammonia", Figure(), _("Total ammonia"), unit="mg/L", help=_("As nitrogen, the way most kits show it.")
    ),
    Field("salt_percent", Figure(most=40), _("Salt"), unit="%", help=_("0.5 in release tanks (Kansas).")),
    Field("fish_lb", Figure(), _("Fish in it now"), unit="lb"),
    NOTE,
)
TREATMENT = (
    DAY,
    Field("tank", TANK, _("Tank"), required=True),
    Field("what", Choice(tuple(Treatment.What.choices)), _("What"), required=True),
    Field("product", Line(), _("Product"), help=_("The name on the label.")),
    Field("dose", Line(80), _("How much"), required=True, help=_("As you gave it: 5 lb, half the water, 2 L/min.")),
    Field("started", Clock(), _("From"), required=True),
    Field("ended", Clock(), _("Until")),
    Field(
        "label_seen",
        Flag(SEEN),
        _("Was the label seen?"),
        help=_("Dose and use are as it says, and as the permit allows."),
    ),
    NOTE,
)
RELEASE = (
    DAY,
    Field("by", Choice(tuple(Release.By.choices)), _("How"), required=True),
    Field(
        "place",
        PLACE,
        _("Place"),
        required=True,
        help=_("Use the same name each time, so that the season adds up."),
    ),
    Field("fish", SOME_FISH, _("Fish brought there"), unit=_("fish"), required=True),
    Field(
        "dead",
        FISH,
        _("Dead when let go"),
        unit=_("fish"),
        default=0,
        help=_("Of those brought. They do not swim off."),
    ),
    Field("time", Clock(), _("Let go at"), required=True),
    Field(
        "depth_ft",
        Figure(most=2000),
        _("Depth there"),
        unit="ft",
        help=_("Kansas: at least 3 ft, good circulation, hard bottom."),
    ),
    Field("distance_mi", MILES, _("From the ramp"), unit=_("miles")),
    Field("water_temp", WaterTemperature(), _("Lake at the place")),
    Field("tank_temp", WaterTemperature(), _("Water the fish came in")),
    NOTE,
)
WALK = (
    Field("hours", Hours(tuple(FloaterWalk.After.choices)), _("Hours after the release"), required=True),
    Field("shore", Line(120, "places"), _("Shore walked"), required=True),
    Field("length_mi", MILES, _("Length"), unit=_("miles")),
    Field(
        "dead",
        FISH,
        _("Dead fish of the event’s species"),
        unit=_("fish"),
        required=True,
        help=_("0 when none was found: that counts too."),
    ),
    Field("walked", DateAndTime(), _("Walked"), required=True),
    Field("note", Text(), _("Note"), help=_("Wind, clipped fins, how long dead.")),
)
# The fish are counted by the door: those of the boat's slip that ought to go back
BAG = (
    DAY,
    Field("boat", Count(1, LARGEST), _("Boat"), required=True),
    Field("fish", FISH, _("Fish"), unit=_("fish")),
    Field("handed", Moment(), _("Into the tank"), required=True),
    Field("handed_by", Line(150), _("By"), required=True),
)
KEPT = (
    DAY,
    Field("fish", SOME_FISH, _("Fish"), unit=_("fish"), required=True),
    Field("alive", Flag(ALIVE), _("Were they alive at the table?"), required=True),
    Field("went", Choice(tuple(KeptFish.Went.choices)), _("What became of them"), required=True),
    Field(
        "boat",
        Boat(unknown=faults.NO_BOAT_KEPT_FROM),
        _("Of boat"),
        help=_("Blank when they are of several."),
    ),
    Field("receiver", Line(), _("Who took them"), help=_("A person or a kitchen. No telephone number.")),
    Field(
        "came_back",
        FISH,
        _("Came back"),
        unit=_("fish"),
        default=0,
        help=_("Lent fish only: they belong in the tally again."),
    ),
    NOTE,
)
