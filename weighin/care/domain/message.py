"""The fields of a care note as stations send it."""

from weighin.care.models import CareNote
from weighin.records.parsing.wire import Field

NOTE = {
    "id": Field("id", "Made by the station before it sends the note; never used twice.", True),
    "day": Field("count", "Day of the event, from 1.", True),
    "boat": Field("count", "Boat number.", True),
    "pump_ok": Field("flag", "Whether the pump runs."),
    "aeration": Field("text", "How the livewell gets its oxygen.", choices=tuple(CareNote.Aeration.values)),
    "livewell_gal": Field("figure", "What the livewell holds, in US gallons."),
    "ice_lb": Field("figure", "Ice put in, in pounds."),
    "thermometer_ok": Field("flag", "Whether the thermometer works."),
    "launched": Field("time", "When the boat launched."),
    "first_fish": Field("time", "When the first fish went into the well."),
    "livewell_temp": Field("temperature", "The livewell's water, with its unit, such as 78 F."),
    "livewell_do": Field("figure", "Oxygen in the livewell, in mg/L."),
    "most_on_board": Field("count", "Most fish on board at once."),
    "culled": Field("count", "Fish put back alive to make room for larger ones; dead ones count as dead."),
    "catch_depth_ft": Field("figure", "The deepest water that fish came from, in feet."),
    "deep_hooked": Field("count", "Deep-hooked fish."),
    "barotrauma": Field("count", "Fish with signs of depth."),
    "reflexes_absent": Field("count", "Reflexes that were absent."),
    "reflexes_checked": Field("count", "Reflexes that were tried."),
    "note": Field("text", "A note."),
    "official": Field("name", "Who saw it."),
    "replaces": Field("reference", "The note that this one corrects: its number or its id."),
    "reason": Field("text", "Why it is corrected or taken out."),
    "void": Field("flag", "Take the note out that replaces names, one that does not stand. Default false."),
}
