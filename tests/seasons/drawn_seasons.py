"""Seasons drawn by chance, and brought in as workbooks."""

from fractions import Fraction
from random import Random

import world

from weighin.events.models import Event

STATUSES = ("withdrawn", "absent", "disqualified")


def drawn(chance: Random) -> list[dict]:
    """A season of up to six events in the order of their days; some cancelled, the last ones mostly to come."""
    crews = [f"Reed {n}" for n in range(1, chance.randint(3, 7))]
    youth = {crew: chance.random() < 0.4 for crew in crews}
    count = chance.randint(1, 6)
    ahead = chance.randint(0, 2)
    events = []
    for number in range(count):
        teams = [_team(chance, crew, youth[crew], number < count - ahead) for crew in crews if chance.random() < 0.8]
        events.append(
            {
                "slug": f"round-{number + 1}-2026",
                "cancelled": chance.random() < 0.1,
                "rules": _rules(chance),
                "teams": teams or [_team(chance, crews[0], False, False)],
            }
        )
    for event in events:
        if event["cancelled"]:
            for team in event["teams"]:
                team["slip"] = None
    return events


def _team(chance: Random, crew: str, youth: bool, fishes: bool) -> dict:
    status = chance.choice(STATUSES) if chance.random() < 0.2 else "entered"
    slip = None
    if fishes and status == "entered" and chance.random() < 0.85:
        fish = 0 if chance.random() < 0.15 else 3
        slip = {
            "fish": fish,
            "weight": chance.choice(("4.00", "5.25", "6.50", "7.1")) if fish else "0",
            "big": chance.choice((None, "1.5", "1.75", "2.00")) if fish else None,
            "ruled_out": bool(fish) and chance.random() < 0.15,
        }
    anglers = (
        [f"Angler of {crew}", chance.choice(("Guest A", "Guest B"))] if chance.random() < 0.5 else [f"Angler of {crew}"]
    )
    young = youth and chance.random() < 0.9
    return {"team": crew, "anglers": anglers, "youth": young, "status": status, "slip": slip}


def _rules(chance: Random) -> dict:
    return {
        "points_table": [Fraction(n) for n in (50, 40, 30)] if chance.random() < 0.3 else None,
        "points_first": Fraction(chance.choice((100, 50))),
        "points_step": Fraction(chance.choice(("1", "2.5", "10"))),
        "points_floor": Fraction(chance.choice((0, 45))),
        "points_no_fish": "last" if chance.random() < 0.3 else Fraction(chance.choice((0, 10))),
        "points_not_weighed": Fraction(chance.choice((0, 5))),
        "points_absent_below_last": Fraction(10) if chance.random() < 0.3 else None,
        "points_per_pound": Fraction(1 if chance.random() < 0.15 else 0),
        "points_big_fish": Fraction(2 if chance.random() < 0.15 else 0),
        "count_best": chance.choice((None, 1, 2, 3)),
        "season_ties": chance.choice((["big_fish", "share"], ["total_weight", "big_fish"], ["share"])),
    }


def brought_in(events: list[dict]) -> list[Event]:
    """The events of a drawn season as the project keeps them; two teams of an event may have a guest of one name."""
    return [world.event_of(_workbook(number, event)) for number, event in enumerate(events, start=1)]


def _workbook(number: int, event: dict) -> world.Sheets:
    rows, slips = [], []
    for boat, team in enumerate(event["teams"], start=1):
        named = {f"angler_{n}": name for n, name in enumerate(team["anglers"], start=1)}
        row = {"boat": str(boat), "team": team["team"], "status": team["status"], **named}
        rows.append(row | ({"youth": "yes"} if team["youth"] else {}))
        slip = team["slip"]
        if slip is None:
            continue
        fish = str(slip["fish"])
        said = {"day": "1", "boat": str(boat), "fish": fish, "alive": fish, "dead": "0", "official": "R. Quill"}
        said |= {"gross": slip["weight"]} if slip["fish"] else {}
        said |= {"big_fish": slip["big"]} if slip["big"] else {}
        slips.append(said | ({"disqualified_reason": "no life jacket"} if slip["ruled_out"] else {}))
    date = f"2026-{number + 3:02d}-10"
    more = {"Days": [{"day": "1", "date": date, "status": "cancelled"}]} if event["cancelled"] else {}
    return world.sheets(f"Round {number}", rows, slips, rules=_written(event["rules"]), more=more, date=date)


def _written(rules: dict) -> dict[str, str]:
    return {key: _text(value) for key, value in rules.items()} | {"ties": "big_fish, share"}


def _text(value: object) -> str:
    if value is None:
        return "none"
    if isinstance(value, list):
        return ", ".join(map(_text, value))
    return f"{float(value):g}" if isinstance(value, Fraction) else str(value)
