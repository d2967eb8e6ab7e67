"""The fields of a weigh slip as stations send it."""

from weighin.records.parsing.wire import Field

SLIP = {
    "id": Field("id", "Made by the station before it sends the slip; never used twice.", True),
    "day": Field("count", "Day of the event, from 1.", True),
    "boat": Field("count", "Boat number.", True),
    "fish": Field("count", "Fish laid on the table, alive and dead, short ones too.", True),
    "alive": Field("count", "Of them alive.", True),
    "dead": Field("count", "Of them dead.", True),
    "short": Field("count", "Of them under the minimum length. Default 0."),
    "gross": Field("weight", "What the scale showed, bag included."),
    "tare": Field("weight", "The empty wet bag. Default: the rule sheet's bag_tare."),
    "big_fish": Field("weight", "The largest fish, weighed alone."),
    "big_fish_alive": Field("flag", "Whether it was alive."),
    "largest_weights": Field("weights", "The largest fish on the scale, largest first."),
    "species": Field("species", "Fish by species, as far as counted."),
    "well_boat": Field("count", "The boat whose livewell held the fish, when not the team's own."),
    "checked_in": Field("time", "When the boat came to the check-in table."),
    "minutes_late": Field("count", "Whole minutes late, instead of checked_in."),
    "excused_minutes": Field("figure", "Minutes excused, such as for a tow. Default 0."),
    "bag_issued": Field("time", "When the team got its bag."),
    "weighed": Field("time", "When the fish were weighed, by the device's clock.", True),
    "bag_emptied": Field("time", "When the bag was emptied."),
    "released": Field("time", "When the fish went back."),
    "dead_at_release": Field("count", "Fish counted alive that were dead at release."),
    "kept": Field("count", "Live fish that are not released."),
    "extra_penalty": Field("weight", "A penalty by ruling."),
    "extra_penalty_reason": Field("text", "Its reason."),
    "disqualified_reason": Field("text", "Why the day is lost by ruling."),
    "official": Field("name", "Who read the scale.", True),
    "note": Field("text", "A note."),
    "replaces": Field("reference", "The slip that this one corrects: its number or its id."),
    "reason": Field("text", "Why it is corrected or taken out."),
    "void": Field("flag", "Take the slip out that replaces names. Default false."),
}
# A void says only which slip it takes out, why, and who says so.
OF_A_VOID = ("id", "day", "boat", "official")
