"""The fields of a check-in as stations send it."""

from weighin.checkin.models import CheckIn
from weighin.records.parsing.wire import Field

CHECKIN = {
    "id": Field("id", "Made by the station before it sends the check-in; never used twice.", True),
    "day": Field("count", "Day of the event, from 1.", True),
    "boat": Field("count", "Boat number.", True),
    "checked_in": Field("time", "When the boat came to the check-in table, by the device's clock."),
    "minutes_late": Field("count", "Whole minutes late, instead of checked_in."),
    "excused_minutes": Field("figure", "Minutes excused, such as for a tow. Default 0."),
    "whereabouts": Field("text", "Where the boat is, as far as known.", choices=tuple(CheckIn.Whereabouts.values)),
    "word": Field("text", "The last word: from whom, and where the boat is."),
    "told_at": Field("time", "When the word came, by the device's clock."),
    "official": Field("name", "Who checked the boat in or took the word."),
    "note": Field("text", "A note."),
    "replaces": Field("reference", "The check-in that this one corrects: its number or its id."),
    "reason": Field("text", "Why it is corrected or taken out."),
    "void": Field("flag", "Take the check-in out that replaces names. Default false."),
}
