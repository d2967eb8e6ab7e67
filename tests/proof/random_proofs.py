"""Whole events drawn at random as proofs, from every key of the rule sheet: the same for the same seed.

Weights are coarse, so that teams tie; slips that cannot be scored are drawn again.
"""

from decimal import Decimal
from itertools import count
from random import Random
from typing import Any

from weighin.proof.domain.canonical import FORMAT, digest_of
from weighin.proof.queries.recomputed import recomputed
from weighin.rules import rulebook, weights
from weighin.rules.faults import Faults
from weighin.rules.sheet.key import Key
from weighin.rules.sheet.keys import KEYS

Proof = dict[str, Any]
DAYS = ["2026-06-20", "2026-03-07", "2026-10-31", "2026-10-24"]  # two of them before a night in which clocks change
NIGHTS = [("19:00", "01:30"), ("20:00", "03:30")]
CLOSE = {
    "fish_limit": (1, 7),
    "late_grace_minutes": (0, 3),
    "late_disqualify_after_minutes": (0, 20),
    "places_paid": (1, 6),
}
KEEP = "cut_keep"


def weight(rng: Random, unit: str, most: int) -> str:
    """A weight as the rule sheet of the unit writes it."""
    whole = rng.randint(0, most)
    if unit == "lb-oz":
        return rng.choice([f"{whole}-{rng.randint(0, 15):02}", f"{whole}-{rng.randint(0, 15):02}.5"])
    return f"{whole}.{rng.choice(['00', '25', '5', '125', '333'])}"


def decimal(rng: Random, most: int) -> str:
    return rng.choice([str(rng.randint(0, most)), f"{rng.randint(0, most)}.{rng.choice(['5', '25', '333', '01'])}"])


def value(rng: Random, key: Key, unit: str, days: int) -> str:
    """A value of a key by its kind: one that is added later is drawn without a word here."""
    if key.name == KEEP:
        return "none"  # goes with the cut
    if key.name == "cut_after_day":
        return str(rng.randint(1, days - 1)) if days > 1 and rng.random() < 0.6 else "none"
    if key.optional and rng.random() < 0.4:
        return "none"
    least, most = CLOSE.get(key.name, (key.least, 9))
    if key.kind == "choices":
        breakers = [one for one in key.choices if one != "share"]
        picked = rng.sample(breakers, rng.randint(1, min(4, len(breakers))))
        return ", ".join(picked + rng.choice([[], ["share"]]))
    if key.kind == "number or last":
        return rng.choice(["last", decimal(rng, 9)])
    if key.kind == "places":
        return rng.choice([str(rng.randint(least, most)), f"1 per {rng.randint(1, 5)}"])
    if key.kind == "money":
        return rng.choice(["0.01", "0.05", "1.00", "5.00"] if key.name == "rounding" else ["0.00", "10.00", "7.77"])
    if key.kind == "numbers":
        return ", ".join(decimal(rng, 60) for _ in range(rng.randint(1, 5))) + ", 1"
    simple = {
        "text": lambda: "crappie",
        "choice": lambda: rng.choice(key.choices),
        "yes/no": lambda: rng.choice(["yes", "no"]),
        "weight": lambda: weight(rng, unit, 1),
        "weights": lambda: ", ".join(weight(rng, unit, 0) for _ in range(rng.randint(1, 3))),
        "whole": lambda: str(rng.randint(least, most)),
        "percent": lambda: rng.choice(["100", "80", "33.3", "0"]),
        "number": lambda: decimal(rng, most),
        "any number": lambda: decimal(rng, most),
    }
    return simple[key.kind]()


def sheet(rng: Random, unit: str, days: int, teams: int) -> dict[str, str]:
    written = {key.name: value(rng, key, unit, days) for key in KEYS}
    if written["cut_after_day"] != "none":
        written[KEEP] = str(rng.randint(1, teams))
    return written


def clock(rng: Random, due: str, seconds: bool = True) -> str:
    """A time of day about the due time."""
    hours, minutes = map(int, due.split(":"))
    at = (hours * 60 + minutes + rng.choice([-30, -1, 0, 0, 1, 2, 5, 10, 15, 16, 20, 40])) % 1440
    text = f"{at // 60:02}:{at % 60:02}"
    return text + rng.choice(["", ":10", ":59"]) if seconds else text


def lateness(rng: Random, due: str) -> dict[str, Any]:
    said: dict[str, Any] = {"checked_in": None, "minutes_late": None, "excused_minutes": None}
    kind = rng.random()
    if kind < 0.5:
        said["checked_in"] = clock(rng, due)
    elif kind < 0.6:
        said["minutes_late"] = rng.randint(0, 20)
    if said["minutes_late"] is None and rng.random() < 0.2:
        said["excused_minutes"] = rng.choice([0, 1, 2.5, 7, 0.1])
    return said


def pounds(rng: Random, unit: str, most: int) -> str:
    """A weight as a proof writes it."""
    return format(weights.read(weight(rng, unit, most), unit), "f")


def slip(rng: Random, number: int, day: int, boat: int, unit: str, due: str) -> dict[str, Any]:
    alive, dead = rng.choice([0, 3, 5, 7, 8]), rng.choice([0, 0, 0, 1, 2])
    big = rng.choice([None, pounds(rng, unit, 1), pounds(rng, unit, 2)]) if alive + dead else None
    largest = sorted((pounds(rng, unit, 1) for _ in range(rng.choice([0, 0, 3, 5]))), key=Decimal, reverse=True)
    return {
        "slip": number, "day": day, "boat": boat, "fish": alive + dead, "alive": alive, "dead": dead,
        "short": min(alive + dead, rng.choice([0, 0, 0, 0, 1, 2])),
        "gross": pounds(rng, unit, 9) if alive + dead and rng.random() < 0.97 else None,
        "tare": rng.choice([None, None, pounds(rng, unit, 0)]),
        "big_fish": big, "big_fish_alive": None if big is None else rng.choice([None, True, True, False]),
        "largest_weights": largest, "black_crappie": None, "white_crappie": None, "other_species": None, "well_boat": None,
        **lateness(rng, due), "weighed": rng.choice([None, clock(rng, due), clock(rng, due, False)]),
        "dead_at_release": None, "kept": None, "extra_penalty": rng.choice([None] * 8 + [pounds(rng, unit, 1)]),
        "disqualified": rng.random() < 0.04, "replaces": None,
    }  # fmt: skip


def sound(rng: Random, proof: Proof, number: int, day: int, boat: int) -> dict[str, Any] | None:
    """A slip that can be scored beside the check-ins of its boat, if one of some is."""
    unit, due = proof["event"]["weight_unit"], proof["event"]["due_time"]
    for _ in range(25):
        row = slip(rng, number, day, boat, unit, due)
        alone = {**proof, "slips": [row], "result": {"standings": [], "purse": {}, "side_pots": []}}
        found = recomputed(alone)
        if found.result is not None and not any(line.startswith("slip ") for line in found.differs):
            return row
    return None


def random_proof(seed: object) -> Proof:
    """One event, with its result as this site works it out, and its digest. Drawn again where a time is one that its
    day's clock skips."""
    for attempt in count():
        proof = _drawn(f"{seed}-{attempt}")
        if recomputed(proof).differs == ():
            break
    return proof


def _drawn(seed: str) -> Proof:
    rng = Random(f"proof {seed}")
    unit, days, teams = rng.choice(weights.UNITS), rng.choice([1, 1, 2, 3]), rng.choice([2, 4, 6, 9])
    start, due = rng.choice([("06:00", "15:00"), ("05:30", "14:30"), *NIGHTS])
    while True:
        try:
            rules = rulebook.read(sheet(rng, unit, days, teams), unit)
            break
        except Faults:
            continue
    written = rules.written()
    first = rng.choice(DAYS)
    proof: Proof = {
        "format": FORMAT,
        "event": {
            "slug": f"event-{seed}", "name": "Heron Bend — “Überraschung” \\ \u0007\x7f é 湖 🎣", "weight_unit": unit,
            "time_zone": rng.choice(["America/Chicago", "Europe/Berlin", "UTC"]), "start_time": start, "due_time": due,
            "days": [
                {"day": n, "date": f"{first[:8]}{int(first[8:]) + n - 1:02}" if first[8:] != "31" else f"2026-{10 if n == 1 else 11}-{31 if n == 1 else n - 1:02}",
                 "start_time": rng.choice([None, start]), "due_time": rng.choice([None, None, due]),
                 "status": rng.choice(["fished", "fished", "shortened", "cancelled"]) if days > 1 else "fished"}
                for n in range(1, days + 1)
            ],
            "entry_fee": rng.choice(["0.00", "60.00", "45.55"]), "added_money": rng.choice(["0.00", "250.00", "17.77"]),
            "big_fish_pot_fee": f"{rules.big_fish_pot_fee:.2f}",
        },
        "rules": {name: None if text == "none" else text for name, text in written.items()},
        "flights": [{"flight": "A", "day": rng.choice([None, 1]), "launch": None, "due_time": due}] if rng.random() < 0.4 else [],
        "teams": [], "slips": [], "checkins": [], "side_pots": [], "ledger": {"length": 0, "head": "0" * 64},
    }  # fmt: skip
    boats = sorted(rng.sample(range(1, 60), teams))
    for boat in boats:
        proof["teams"].append({
            "boat": boat, "team": f"Team {boat}", "youth": rng.choice([None, True, False]),
            "status": rng.choice(["entered"] * 12 + ["withdrawn", "absent", "disqualified"]), "paid": rng.random() < 0.8,
            "big_fish_pot": rng.random() < 0.6, "lot": rng.choice([None, rng.randint(1, 5)]), "flight": rng.choice([None, "A"]) if proof["flights"] else None,
        })  # fmt: skip
    for pot in range(rng.choice([0, 0, 1, 2, 4])):
        proof["side_pots"].append({
            "name": f"Pot {pot}", "fee": rng.choice(["5.00", "3.33", "0.00"]),
            "wins": ("big_fish", "total", "youth_total", "first_limit")[(pot + rng.randint(0, 3)) % 4],
            "shares": rng.choice(["100", "60, 40", "5, 3, 2.5", "0, 1"]), "paid": sorted(rng.sample(boats, rng.randint(0, teams))),
        })  # fmt: skip
    fished = [day["day"] for day in proof["event"]["days"] if day["status"] != "cancelled"]
    for day in proof["event"]["days"]:
        for boat in boats:
            for _ in range(rng.choice([0, 0, 0, 1, 2])):
                line = {"day": day["day"], "boat": boat, **lateness(rng, due)}
                if any(line[name] is not None for name in ("checked_in", "minutes_late", "excused_minutes")):
                    proof["checkins"].append(line)
    _weigh(rng, proof, fished, boats)
    result = recomputed({**proof, "result": {"standings": [], "purse": {}, "side_pots": []}}).result
    assert result is not None
    proof["result"] = {**result, "version": rng.choice([None, 1])}
    return {**proof, "digest": digest_of(proof)}


def _weigh(rng: Random, proof: Proof, fished: list[int], boats: list[int]) -> None:
    """Slips of every day: some corrected, voided or doubled; of the replaced only those that a proof has."""
    cut = int(proof["rules"]["cut_after_day"] or 0)
    number = 0
    for day in fished:
        for boat in boats:
            if rng.random() < 0.12:
                continue
            number += 1
            row = sound(rng, proof, number, day, boat)
            if row is None:
                continue
            after = rng.random()
            if after < 0.12:  # corrected
                number += 1
                later = sound(rng, proof, number, day, boat)
                if later is not None:
                    if day <= cut:
                        proof["slips"].append(row)
                    row = {**later, "replaces": row["slip"]}
            elif after < 0.17:  # taken out
                if day <= cut:
                    proof["slips"].append(row)
                number += 1
                row = {"slip": number, "day": day, "boat": boat, "replaces": row["slip"], "void": True}
            elif after < 0.21:  # weighed twice
                number += 1
                other = sound(rng, proof, number, day, boat)
                proof["slips"] += [other] if other else []
            proof["slips"].append(row)
