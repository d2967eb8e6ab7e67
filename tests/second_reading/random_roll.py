"""Random valid lines of the check-in table."""

from __future__ import annotations

from datetime import datetime, timedelta
from random import Random

from .clock import Day
from .spelling import moment_text


def check_ins(rng: Random, boat: str, day: Day, came: datetime) -> list[dict[str, str]]:
    """What was written of a boat that came in at ``came``: words, times, minutes and excuses, one or several lines."""
    lines = []
    for _ in range(rng.choice([1, 1, 2, 3, 4])):
        line: dict[str, str] = {}
        match rng.choice(["time", "time", "time", "minutes", "excuse", "excuse", "word"]):
            case "time":
                line["checked_in"] = moment_text(rng, came + timedelta(minutes=rng.choice([0, 0, 4, 35])), day)
                if rng.random() < 0.3:
                    line["excused_minutes"] = str(rng.choice([0, 1, 3, 12]))
            case "minutes":
                line["minutes_late"] = str(rng.choice([0, 1, 4, 9, 16]))
            case "excuse":
                line["excused_minutes"] = str(rng.choice([0, 2, 5, 20]))
            case _:
                line["whereabouts"] = rng.choice(["launched", "in_by_road", "phoned", "unaccounted"])
                line["told_at"] = moment_text(rng, came - timedelta(minutes=9), day)
        if rng.random() < 0.3:
            line |= {"word": "by the north ramp", "official": "R. Quill", "note": "towed"}
        lines.append({"day": str(day.number), "boat": boat} | line)
    return lines
