"""The tablet's scoring against weighin.rules: both score the same 2,000 generated slips, to the last digit.

The script runs in Node where it is installed, else in Chromium; without either the test says so.
"""

import json
import os
import shutil
import subprocess
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import pytest

from weighin.rules import rulebook, scoring, weights
from weighin.rules.rulebook import Rulebook
from weighin.rules.slips import Slip

SCRIPT = Path(__file__).resolve().parents[2] / "weighin/ui/static/weighin/scoring.js"
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


def rule_sheet(rng: Random, unit: str) -> dict[str, str]:
    def some(*choices: str) -> str:
        return rng.choice(choices)

    return {
        "fish_limit": str(rng.randint(1, 8)),
        "bag_tare": rng.choice(["0", weight(rng, unit, 0)]),
        "dead_fish": some("penalty", "not_weighed", "both"),
        "dead_fish_penalty": ", ".join(weight(rng, unit, 0) for _ in range(rng.randint(1, 3))),
        "dead_fish_big_fish": some("yes", "no"),
        "short_fish": some("penalty", "lose_largest", "lose_day"),
        "short_fish_penalty": weight(rng, unit, 1),
        "over_limit": some("disqualify_day", "remove_largest", "penalty"),
        "over_limit_penalty": weight(rng, unit, 1),
        "late_penalty_per_minute": weight(rng, unit, 1),
        "late_grace_minutes": some("0", "0", "1", "2.5"),
        "late_disqualify_after_minutes": some("15", "10", "none", "2.5"),
        "late_reduces_big_fish": some("yes", "no"),
        "live_fish_bonus": some("0", weight(rng, unit, 0)),
        "negative_totals": some("floor", "keep"),
    }


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
    """Score the cases with the tablet's script, in Node or else in Chromium."""
    node = shutil.which("node")
    work = "cases.map((c) => weighinScoring.score(weighinScoring.rules(c.rules, c.unit), c.slip))"
    if node:
        program = (
            f"require({json.dumps(str(SCRIPT))}); const cases = JSON.parse(require('fs').readFileSync(0, 'utf8'));"
            f"process.stdout.write(JSON.stringify({work}))"
        )
        done = subprocess.run(
            [node, "-e", program], input=json.dumps(cases), capture_output=True, text=True, check=True
        )
        return list(json.loads(done.stdout))
    chromium = os.environ.get("WEIGHIN_CHROMIUM") or shutil.which("chromium")
    if not chromium:
        pytest.skip("neither Node nor Chromium is here to run the tablet's script")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=chromium, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page()
        page.add_script_tag(path=str(SCRIPT))
        found = page.evaluate(f"(cases) => {work}", cases)
        browser.close()
    return list(found)


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
