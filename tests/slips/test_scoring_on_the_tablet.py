"""The tablet's scoring against weighin.rules: both score the same 2,000 generated slips, to the last digit."""

from decimal import Decimal
from fractions import Fraction
from random import Random
from typing import Any

import javascript

from weighin.rules import rulebook, scoring, weights
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet.key import Key
from weighin.rules.sheet.keys import KEYS
from weighin.rules.slips import Slip

SLIPS = 2000


def weight(rng: Random, unit: str, most: int) -> str:
    """A weight as an official might write it in the unit."""
    if unit == "lb-oz":
        ounces = rng.choice(
            [
                str(rng.randint(0, 15)),
                f"{rng.randint(0, 15)}.5",
                f"{rng.randint(0, 15)} {rng.choice(['1/2', '3/4', '5/8', '15/16'])}",
            ]
        )
        return rng.choice([f"{rng.randint(0, most)}-{ounces}", f"{rng.randint(0, most)} lb {ounces} oz"])
    return f"{rng.randint(0, most * 100) / 100:.{rng.choice([2, 3])}f}"


# Keys that say nothing of one slip's score, and what they are about; any other must change a generated one
ELSEWHERE = {
    "species": "words and believable weights",
    "boat_limit": "fish care",
    "minimum_length_in": "which fish are short is judged by hand",
    "deep_fish_kept_ft": "told to the boats",
    "measured_lengths_above": "told to the boats",
    **dict.fromkeys(("ties", "cut_after_day", "cut_keep"), "places"),
    **dict.fromkeys(("places_paid", "payback_percent", "place_shares", "rounding"), "money"),
    **dict.fromkeys(("big_fish_pot_fee", "big_fish_shares"), "money"),
    **dict.fromkeys((key.name for key in KEYS if key.name.startswith("points_")), "points"),
    **dict.fromkeys(("count_best", "season_ties"), "points"),
    **dict.fromkeys((key.name for key in KEYS if key.name.startswith("care_")), "fish care"),
}
SCORING = [key for key in KEYS if key.name not in ELSEWHERE]
CLOSE = {"fish_limit": (1, 8), "late_grace_minutes": (0, 3), "late_disqualify_after_minutes": (0, 20)}


def value(rng: Random, key: Key, unit: str) -> str:
    """A value of a key as a director might write it, by the key's kind: a key added later is tried without a word here."""
    if key.optional and rng.random() < 0.2:
        return "none"
    if key.kind == "choice":
        return rng.choice(key.choices)
    if key.kind == "yes/no":
        return rng.choice(["yes", "no"])
    if key.kind == "weight":
        return rng.choice(["0", weight(rng, unit, 1)])
    if key.kind == "weights":
        return ", ".join(weight(rng, unit, 0) for _ in range(rng.randint(1, 3)))
    least, most = CLOSE.get(key.name, (key.least, 10))
    if key.kind == "whole":
        return str(rng.randint(least, most))
    assert key.kind == "number", f"say here how a {key.kind} is written, or in ELSEWHERE why {key.name} scores no slip"
    return rng.choice([str(rng.randint(least, most)), "2.5"])


def rule_sheet(rng: Random, unit: str) -> dict[str, str]:
    return {key.name: value(rng, key, unit) for key in SCORING}


def slip(rng: Random, unit: str) -> dict[str, Any]:
    """A slip as typed; some are sound, some have faults on purpose."""
    alive, dead = rng.randint(0, 8), rng.choice([0, 0, 1, 2, 3])
    fish = alive + dead + rng.choice([0] * 9 + [1])
    largest = sorted(
        (weight(rng, unit, 1) for _ in range(rng.choice([0, 0, 2, 4]))), key=lambda w: -weights.read(w, unit)
    )
    return {
        "fish": fish,
        "alive": alive,
        "dead": dead,
        "short": rng.choice([0, 0, 0, 1, 2]),
        "gross": rng.choice([weight(rng, unit, 12)] * 8 + [""]),
        "tare": rng.choice(["", weight(rng, unit, 0)]),
        "big_fish": rng.choice(["", weight(rng, unit, 1)]),
        "big_fish_alive": rng.choice([None, True, True, False]),
        "largest_weights": largest,
        "late_ms": rng.choice([0, 0, 1000, 59_999, 60_000, 130_000, 150_000, 150_001, 900_000, 900_250, 1_500_000]),
        "extra_penalty": rng.choice(["", "", "", weight(rng, unit, 1)]),
        "extra_penalty_reason": rng.choice(["", "no life jacket", "no life jacket"]),
        "disqualified_reason": rng.choice([""] * 15 + ["left the water"]),
    }


def by_the_rules(book: Rulebook, typed: dict[str, Any]) -> dict[str, Any]:
    unit = book.unit

    def read(name: str) -> Decimal | None:
        return weights.read(typed[name], unit) if typed[name] else None

    plain = Slip(
        fish=typed["fish"],
        alive=typed["alive"],
        dead=typed["dead"],
        short=typed["short"],
        gross=read("gross"),
        tare=read("tare"),
        big_fish=read("big_fish"),
        big_fish_alive=typed["big_fish_alive"],
        largest_weights=tuple(weights.read(text, unit) for text in typed["largest_weights"]),
        minutes_late=Fraction(typed["late_ms"], 60_000),
        extra_penalty=read("extra_penalty"),
        extra_penalty_reason=typed["extra_penalty_reason"],
        disqualified_reason=typed["disqualified_reason"],
    )
    faults = scoring.faults(book, plain)
    if faults:
        return {"faults": sorted(fault.field for fault in faults)}
    found = scoring.score(book, plain)
    return {
        "net": found.net,
        "deductions": [(line.reason, line.count, line.amount) for line in found.deductions],
        "bonus": found.bonus,
        "total": found.total,
        "onScale": found.on_scale,
        "weighed": found.weighed,
        "bigFish": found.big_fish,
        "lost": found.lost,
    }


def on_the_tablet(answer: dict[str, Any]) -> dict[str, Any]:
    if "faults" in answer:
        return {"faults": sorted(fault["field"] for fault in answer["faults"])}
    return {
        "net": Decimal(answer["net"]),
        "deductions": [(line["reason"], line["count"], Decimal(line["amount"])) for line in answer["deductions"]],
        "bonus": Decimal(answer["bonus"]),
        "total": Decimal(answer["total"]),
        "onScale": answer["onScale"],
        "weighed": answer["weighed"],
        "bigFish": None if answer["bigFish"] is None else Decimal(answer["bigFish"]),
        "lost": answer["lost"],
    }


def run_script(cases: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Score the cases with the tablet's script."""
    work = "cases.map((c) => scoring.score(scoring.rules(c.rules, c.unit), c.slip))"
    return list(javascript.run(work, cases, scoring="scoring/score"))


def test_tablet_and_rules_agree_on_generated_slips() -> None:
    rng = Random("tablet")
    cases, books = [], []
    for _ in range(SLIPS):
        unit = rng.choice(weights.UNITS)
        book = rulebook.read(rule_sheet(rng, unit), unit)
        books.append(book)
        cases.append({"rules": book.written(), "unit": unit, "slip": slip(rng, unit)})
    answers = run_script(cases)
    sound = 0
    for book, case, answer in zip(books, cases, answers, strict=True):
        expected = by_the_rules(book, case["slip"])
        assert on_the_tablet(answer) == expected, (case["unit"], case["rules"], case["slip"])
        sound += "faults" not in expected
    assert SLIPS // 4 < sound < SLIPS - 200, "some slips must be sound and some must not"


def test_every_scoring_key_changes_a_score_on_the_site_and_on_the_tablet() -> None:
    """A key that one of the two does not know scores there as if it were not written, and is named here."""
    rng = Random("each key")
    tried, cases = [], []
    for key in SCORING:
        for _ in range(400):
            unit = rng.choice(weights.UNITS)
            sheet, typed = rule_sheet(rng, unit), slip(rng, unit)
            for text in (sheet[key.name], value(rng, key, unit)):
                book = rulebook.read({**sheet, key.name: text}, unit)
                tried.append((key.name, book, typed))
                cases.append({"rules": book.written(), "unit": unit, "slip": typed})
    answers = [on_the_tablet(answer) for answer in run_script(cases)]
    expected = [by_the_rules(book, typed) for _, book, typed in tried]
    assert answers == expected
    pairs = zip(tried[::2], expected[::2], expected[1::2], strict=True)
    changed = {name for (name, _, _), one, other in pairs if one != other}
    assert changed == {key.name for key in SCORING}


def test_the_keys_that_score_no_slip_are_keys() -> None:
    assert set(ELSEWHERE) <= {key.name for key in KEYS}
