"""What a care note says of how a team kept its fish on one day, field by field."""

from django.utils.translation import gettext_lazy as _

from weighin.care.domain import faults
from weighin.care.models import CareNote
from weighin.events.domain.kinds import Clock, Day, WaterTemperature
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice, Count, Figure, Flag, Name, Text
from weighin.roster.domain.kinds import Boat
from weighin.roster.domain.value_faults import BOAT_MISSING, DAY_MISSING

MOST_DEPTH_FT = 500
FISH = Count(most=1000)

OF_A_DAY = (
    Field(
        "day",
        Day(cancelled=faults.DAY_WAS_CANCELLED),
        _("Day"),
        _("Day of the event, from 1."),
        required=True,
        missing=DAY_MISSING,
    ),
    Field("boat", Boat(), _("Boat"), _("Boat number."), required=True, missing=BOAT_MISSING),
)
CARE = (
    Field("pump_ok", Flag(), _("Pump runs"), _("Whether the pump runs.")),
    Field(
        "aeration",
        Choice(tuple(CareNote.Aeration.choices)),
        _("Aeration"),
        _("How the livewell gets its oxygen."),
    ),
    Field("livewell_gal", Figure(), _("Livewell holds"), _("What the livewell holds, in US gallons."), unit="gal"),
    Field("ice_lb", Figure(), _("Ice added"), _("Ice added, in pounds."), unit="lb"),
    Field("thermometer_ok", Flag(), _("Thermometer works"), _("Whether the thermometer works.")),
    Field("launched", Clock(), _("Launched"), _("When the boat launched.")),
    Field("first_fish", Clock(), _("First fish"), _("When the first fish went into the livewell.")),
    Field(
        "livewell_temp",
        WaterTemperature(),
        _("Livewell"),
        _("The livewell’s water, with its unit, such as 78 F."),
    ),
    Field("livewell_do", Figure(most=60), _("Oxygen"), _("Oxygen in the livewell, in mg/L."), unit="mg/L"),
    Field("most_on_board", FISH, _("Most on board"), _("Most fish on board at once.")),
    Field("culled", FISH, _("Culled"), _("Fish put back alive to make room for larger ones; dead ones count as dead.")),
    Field(
        "catch_depth_ft",
        Figure(most=MOST_DEPTH_FT),
        _("Deepest catch"),
        _("The deepest water that fish came from, in feet."),
        unit="ft",
    ),
    Field("deep_hooked", FISH, _("Deep-hooked"), _("Deep-hooked fish.")),
    Field("barotrauma", FISH, _("Signs of depth"), _("Fish with signs of depth.")),
    Field("reflexes_absent", FISH, _("Reflexes absent"), _("Reflexes that were absent.")),
    Field("reflexes_checked", FISH, _("Reflexes tried"), _("Reflexes that were tried.")),
    Field("note", Text(), _("Note"), _("A note.")),
)
NOTE = (*OF_A_DAY, *CARE)
SENT = (
    *NOTE,
    Field("official", Name(), _("Official"), _("Who saw it.")),
    Field("reason", Text(), _("Reason"), _("Why it is corrected or void.")),
)
NOTED = tuple(field.name for field in CARE)
