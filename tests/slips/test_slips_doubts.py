"""The unlikely is doubted in the same words by the tablet and by the pages of slips, and stops nobody."""

import re
from dataclasses import asdict
from decimal import Decimal
from fractions import Fraction
from random import Random
from typing import Any

import javascript
import pytest
import world
from django.urls import reverse
from slips.table import posted, record

from weighin.accounts.domain.roles import Role
from weighin.checkin.queries.arrivals import table_of
from weighin.rules import rulebook, weights
from weighin.rules.slips import Slip
from weighin.rules.species import believable
from weighin.slips.domain.doubts import doubts, per_fish, usual_per_fish
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import current_slips

CASES = 400


def said(unit: str = "lb", usual: Any = None, species: str = "crappie", **values: Any) -> dict[str, str]:
    slip = {"fish": 7, "alive": 7, "dead": 0, "short": 0, "gross": Decimal("8.40"), **values}
    return {one.field: one.message for one in doubts(rulebook.read({"species": species}, unit), Slip(**slip), usual)}


def test_the_likely_is_not_doubted() -> None:
    assert said() == {}
    assert said(big_fish=Decimal("1.62")) == {}
    assert said(alive=0, fish=0, gross=None) == {}
    assert said(species="largemouth bass", gross=Decimal("28.00")) == {}, "4 lb a fish is no giant among bass"
    assert said(species="bowfin", gross=Decimal("98.40")) == {}, "nothing is known of the kind"


@pytest.mark.parametrize(
    ("values", "field", "words"),
    [
        ({"gross": Decimal("98.4")}, "gross", "98.40 is 14.06 lb a fish; a fish of 1.75 lb is a giant among crappie."),
        ({"gross": Decimal("0.40")}, "gross", "0.40 is 0.06 lb a fish; crappie are hardly lighter than 0.25 lb each."),
        ({"gross": Decimal("1.40")}, "gross", "1.40 is 0.20 lb a fish; crappie are hardly lighter than 0.25 lb each."),
        ({"gross": Decimal("1.40"), "usual": Fraction("0.45")}, "gross", "crappie are hardly lighter than 0.25 lb each."),
        ({"species": "walleye", "gross": Decimal("3.40")}, "gross", "3.40 is 0.49 lb a fish; walleye are hardly lighter than 0.50 lb each."),
        ({"fish": 9, "alive": 9}, "alive", "9 fish, and the limit is 7: count again."),
        ({"big_fish": Decimal("4.1")}, "big_fish", "4.10 is heavier than the fish one expects"),
        ({"big_fish": Decimal("0.9")}, "big_fish", "0.90 is lighter than this boat’s fish on average (1.20 lb)"),
        ({"gross": Decimal("84"), "usual": Fraction("1.2")}, "gross", "boats here bring 1.20 lb a fish. Is the point in its place?"),
        ({"unit": "kg", "gross": Decimal("8.40")}, "gross", "a fish of 0.79 kg is a giant among crappie"),
    ],
)  # fmt: skip
def test_the_unlikely_is_doubted(values: dict[str, Any], field: str, words: str) -> None:
    found = said(**values)
    assert set(found) == {field} and words in found[field]


def test_what_is_usual_comes_from_five_slips_of_the_event(db: None) -> None:
    event = world.event(days=2)
    for boat, gross in ((1, "7.00"), (2, "7.70"), (3, "8.40"), (4, "9.10")):
        record(event, boat=str(boat), gross=gross)
    table = table_of(event)
    assert usual_per_fish(current_slips(event), table) is None
    record(event, boat="1", day="2", weighed="2026-06-21 15:00", gross="10.50")
    assert usual_per_fish(current_slips(event), table) == Decimal("1.2")


def test_the_pages_say_it_and_keep_the_slip(db: None) -> None:
    event = world.event()
    client = world.member(event.club, Role.WEIGH_OFFICIAL, "quill")
    so_far = reverse("slips:slip_so_far", args=[event.slug])
    assert "Check again." not in client.get(so_far, posted()).content.decode()
    assert "84.00 is 12.00 lb a fish" in client.get(so_far, posted(gross="84.00")).content.decode()
    done = client.post(
        reverse("slips:slips_new", args=[event.slug]), posted(gross="84.00", believed="84.00//"), follow=True
    )
    assert WeighSlip.objects.get().gross == "84.00", "kept all the same"
    assert "84.00 is 12.00 lb a fish" in done.content.decode() and "correct slip 1" in done.content.decode()


def drawn(rng: Random, unit: str) -> dict[str, Any]:
    alive, dead = rng.randint(1, 9), rng.choice([0, 0, 1])
    each = rng.choice([0.05, 0.3, 0.6, 0.9, 1.2, 1.5, 2.5, 12])
    gross = weights.show(Decimal(str(round(each * (alive + dead) + rng.random(), 2))), unit)
    big = rng.choice(["", weights.show(Decimal(str(round(each * rng.choice([0.5, 1.3, 3]) + 0.01, 2))), unit)])
    return {
        "day": 1,
        "boat": 1,
        "fish": alive + dead,
        "alive": alive,
        "dead": dead,
        "short": 0,
        "gross": gross,
        "big_fish": big,
    }


def test_tablet_and_pages_doubt_the_same() -> None:
    rng = Random("doubts")
    cases = []
    for _ in range(CASES):
        unit = rng.choice(weights.UNITS)
        before = [drawn(rng, unit) for _ in range(rng.choice([0, 3, 5, 6, 9]))]
        cases.append(
            {
                "unit": unit,
                "species": (species := rng.choice(["crappie", "walleye", "bass", "bowfin"])),
                "believable": (asked := believable(species, unit))
                and {name: str(value) for name, value in asdict(asked).items()},
                "rules": rulebook.read({"species": species}, unit).written(),
                "slips": before,
                "slip": drawn(rng, unit),
            }
        )
    work = (
        "cases.map((one) => doubts.doubtsAbout(one.slip, { book: scoring.rules(one.rules, one.unit),"
        " eventDocument: { slips: one.slips, believable: one.believable }, others: [], entry: { status: 'entered' } }).map(({ field, words }) => [field, words]))"
    )
    answers = javascript.run(work, cases, scoring="scoring/score", doubts="slip/doubts")
    doubted = 0
    for case, told in zip(cases, answers, strict=True):
        unit = case["unit"]
        book = rulebook.read({"species": case["species"]}, unit)
        before = [_slip(one, unit) for one in case["slips"]]
        each = sorted(one for slip in before if (one := per_fish(book, slip)) is not None and one > 0)
        usual = each[len(each) // 2] if len(each) >= 5 else None
        mine = [[one.field, one.message] for one in doubts(book, _slip(case["slip"], unit), usual)]
        assert _bare(mine) == _plain(told), case
        doubted += bool(mine)
    assert CASES // 4 < doubted < CASES


def _slip(typed: dict[str, Any], unit: str) -> Slip:
    counts = {name: typed[name] for name in ("fish", "alive", "dead", "short")}
    read = {name: weights.read(typed[name], unit) if typed[name] else None for name in ("gross", "big_fish")}
    return Slip(**counts, **read)


def _bare(found: list[list[str]]) -> list[Any]:
    """Field, words without figures, and the figures, which two roundings may leave a hundredth apart."""
    figure = r"\d+\.\d+"
    return [
        [field, re.sub(figure, "", words), [pytest.approx(float(one), abs=0.011) for one in re.findall(figure, words)]]
        for field, words in found
    ]


def _plain(found: list[list[str]]) -> list[Any]:
    figure = r"\d+\.\d+"
    return [
        [field, re.sub(figure, "", words), [float(one) for one in re.findall(figure, words)]] for field, words in found
    ]
