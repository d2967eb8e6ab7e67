"""Random valid lines of the check-in table."""

from __future__ import annotations

from datetime import datetime, timedelta

from ..clock import Day
from .chance import Chance
from .spelling import moment_text


def check_ins(rng: Chance, boat: str, day: Day, came: datetime) -> list[dict[str, str]]:
    """What was written of a boat that came in at ``came``: words, times, minutes and excuses, one or several lines."""
    lines = []
    for number in range(rng.pick("lines", [1, 1, 2, 3, 4])):
        own = rng.of(number)
        line: dict[str, str] = {}
        match own.pick("what", ["time", "time", "time", "minutes", "excuse", "excuse", "word"]):
            case "time":
                line["checked_in"] = moment_text(
                    own.of("spelt"), came + timedelta(minutes=own.pick("after", [0, 0, 4, 35])), day
                )
                if own.happens("excused", 0.3):
                    line["excused_minutes"] = str(own.pick("excused beside", [0, 1, 3, 12]))
            case "minutes":
                line["minutes_late"] = str(own.pick("minutes_late", [0, 1, 4, 9, 16]))
            case "excuse":
                line["excused_minutes"] = str(own.pick("excused_minutes", [0, 2, 5, 20]))
            case _:
                line["whereabouts"] = own.pick("whereabouts", ["launched", "in_by_road", "phoned", "unaccounted"])
                line["told_at"] = moment_text(own.of("told_at"), came - timedelta(minutes=9), day)
        if own.happens("word", 0.3):
            line |= {"word": "by the north ramp", "official": "R. Quill", "note": "towed"}
        lines.append({"day": str(day.number), "boat": boat} | line)
    return lines
