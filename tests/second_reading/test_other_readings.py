"""Would the comparison notice? Each sentence read otherwise has to change the figures of an event.

A mutant is the second reading with one line of one module changed, loaded as a package of its own. It is
noticed when `differences` finds anything between it and the reading: in the event planted for it, else in the random
events of the ordinary suite, of which then at least six tell it (counted when the planted ones were chosen).
"""

from __future__ import annotations

import importlib
import shutil
import sys
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from .comparison import differences
from .drawing.generate import random_event
from .drawing.planted_readings import PLANTED
from .reading import read_event

ORDINARY = 60

# (what is read otherwise, module, text, text of the other reading)
READINGS = [
    ("dead short fish before live ones", "one_slip", "    short_alive = min(short, alive)", "    short_alive = max(0, short - dead)"),
    ("over the limit by legal fish", "one_slip", "max(0, fish - limit)", "max(0, legal - limit)"),
    ("dead fish weighed always", "one_slip", 'in ("not_weighed", "both") else legal', "in () else legal"),
    ("all fish on the scale", "one_slip", "on_scale = min(on_scale, limit)", "pass"),
    ("excused from minutes_late", "one_slip", 'return Fraction(whole(said["minutes_late"]))',
     'return max(ZERO, Fraction(whole(said["minutes_late"])) - (whole(excused) if given(excused) else 0))'),
    ("minutes late rounded down", "one_slip", "max(0, ceil(late -", "max(0, int(late -"),
    ("no grace", "one_slip", 'ceil(late - rules["late_grace_minutes"])', "ceil(late)"),
    ("day lost after the grace", "one_slip", "late > last", 'late - rules["late_grace_minutes"] > last'),
    ("day lost at the minute", "one_slip", "late > last", "late >= last"),
    ("day lost by whole minutes", "one_slip", "late > last", "int(late) > last"),
    ("late before over_limit", "one_slip", 'if counts.over > 0 and rules["over_limit"] == "disqualify_day"',
     'if counts.over > 0 and rules["over_limit"] == "disqualify_day" and late < 3'),
    ("removed under short_fish", "one_slip", "lost_over = net if counts.removed_over else ZERO",
     "lost_over = net if not counts.removed_short else ZERO"),
    ("short fish taken first", "one_slip", "listed[: counts.removed_over]", "listed[counts.removed_short :]"),
    ("last step not repeated", "one_slip", "range(counts.dead)", "range(min(counts.dead, len(steps)))"),
    ("only legal dead fish cost", "one_slip", '"count": counts.dead, "amount": amount',
     '"count": counts.fish - counts.short - counts.legal_alive, "amount": amount'),
    ("lines without amount left out", "one_slip", 'if line["count"] > 0', 'if line["amount"] > 0'),
    ("bonus of short fish too", "one_slip", "min(counts.legal_alive,", "min(counts.alive,"),
    ("bonus beyond the limit", "one_slip", 'min(counts.legal_alive, rules["fish_limit"])', "counts.legal_alive"),
    ("always floored", "one_slip", 'if rules["negative_totals"] == "floor"', "if True"),
    ("never floored", "one_slip", 'if rules["negative_totals"] == "floor"', "if False"),
    ("net of a lost day gone", "one_slip", "0, net, ZERO, ZERO, None, lost", "0, ZERO, ZERO, ZERO, None, lost"),
    ("dead big fish always counts", "one_slip", "if not alive and (", "if False and ("),
    ("dead big fish never counts", "one_slip", "if not alive and (", "if not alive or ("),
    ("big fish worn down counts", "one_slip", "return value if value > 0 else None", "return max(ZERO, value)"),
    ("big fish not reduced", "one_slip", 'if rules["late_reduces_big_fish"]', "if False"),
    ("live fish of lost days", "places", "for s in team.scores if not s.lost)", "for s in team.scores)"),
    ("cut by k teams, not by totals", "places", "through(team, day) >= totals[keep - 1]",
     "through(team, day) > totals[keep - 1]"),
    ("who went out stays nowhere", "places", "team.weighed_after(day) and makes_cut", "False and makes_cut"),
    ("check-ins count nowhere", "reading", "check_ins(sheets, slip))", "[])"),
    ("the last time of the roll", "one_slip", "said = timed[0] if", "said = timed[-1] if"),
    ("the first excuse", "one_slip", "excused = excuses[-1]", "excused = excuses[0]"),
    ("the roll's excuse first", "one_slip", "if not given(excused) and excuses:", "if excuses:"),
    ("nobody misses the cut in the ranking", "places", "missed = not fishes_on(team, teams, rules)", "missed = 0"),
    ("lot highest first", "places", "team.lot or 0)", "-(team.lot or 0))"),
    ("no lot before a lot", "places", "(team.lot is None, ", "(team.lot is not None, "),
    ("deductions more is better", "places", "return team.penalty", "return -team.penalty"),
    ("dense places", "places", "1 + sum(other < mine for other in standings.values())",
     "1 + len({other for other in standings.values() if other < mine})"),
    ("lost day with fish is ranked", "places", "all(s.lost for s in with_fish)", "False"),
    ("a cancelled day is a first day", "reading", "[n for n, day in days.items() if not day.cancelled]", "list(days)"),
    ("ranked entries paid", "money", "entries = sum(t.paid for t in teams)",
     'entries = sum(t.paid and t.status == "ranked" for t in teams)'),
    ("added money before the percentage", "money", 'entries * entry_fee * rules["payback_percent"] / 100, CENT) + added',
     '(entries * entry_fee + added) * rules["payback_percent"] / 100, CENT)'),
    ("unpaid teams hold prize places", "money", 'if t.status == "ranked" and t.paid]', 'if t.status == "ranked"]'),
    ("one per k rounded up", "money", "paid_entries // int(match[1])", "-(-paid_entries // int(match[1]))"),
    ("shares of all places", "money", "whole = sum(shares, ZERO)", "whole = sum(shares, ZERO) + 1"),
    ("tied teams paid one place", "money", "prizes[at : at + len(boats)]", "prizes[at : at + 1]"),
    ("cents to higher boats", "money", "enumerate(sorted(boats))", "enumerate(sorted(boats, reverse=True))"),
    ("rest not to the first", "money", "prizes[0] += purse - sum(prizes, ZERO)", "pass"),
    ("pot without payment", "money", "if t.in_pot and t.paid]", "if t.in_pot]"),
    ("all shares of the pot", "money", '["big_fish_shares"][: len(holders)]', '["big_fish_shares"]'),
    ("no floor under the table", "money", 'return max(points, rules["points_floor"])',
     'return points if table else max(points, rules["points_floor"])'),
    ("the table's last entry goes on", "money", "table[-1] - (place - len(table)) * step", "table[-1]"),
    ("pounds rounded", "amounts", "max(0, pounds.numerator // pounds.denominator)", "max(0, round(pounds))"),
    ("whole kilograms", "amounts", 'total * POUNDS_PER_KILOGRAM if unit == "kg" else total', "total"),
    ("absent gets nothing", "money", "max(ZERO, least - below)", "ZERO * least * below"),
    ("no fish gets no last", "money", 'least if rules["points_no_fish"] == "last"',
     'ZERO if rules["points_no_fish"] == "last"'),
    ("flight of every day first", "reading", "for row in own + every", "for row in every + own"),
    ("no flights", "reading", "if given(flight):", "if False:"),
    ("a void is a slip", "reading", 'and not (given(row.get("void")) and yes(row["void"]))', "and True"),
    ("event's lake first", "reading", 'lake=_or_default(row, "lake_temp"', 'lake=_or_default({}, "lake_temp"'),
    ("no night events", "clock", "return self.due < self.start", "return False"),
    ("wall-clock durations", "clock", "return aware.astimezone(UTC)", "return moment.replace(tzinfo=UTC)"),
    ("second passing", "clock", "tzinfo=zone, fold=0", "tzinfo=zone, fold=1"),
    ("minutes cut off", "clock", "value * 10 + Fraction(1, 2)", "value * 10"),
    ("held until weighed", "fish", '"released", "weighed")', '"weighed")'),
    ("held from the launch", "fish", 'moment(note, "first_fish", "launched")', 'moment(note, "launched")'),
    ("bag until weighed", "fish", '"bag_emptied", "weighed")', '"weighed")'),
    ("ice in cool water too", "fish", "if ice is None or not warm", "if ice is None"),
    ("warm only above", "fish", "day.lake >= rules", "day.lake > rules"),
    ("cooling below the limit", "fish", 'at_most(cooling, rules["care_max_cooling_f"])',
     'None if cooling is None else cooling < rules["care_max_cooling_f"]'),
    ("oxygen above the least", "fish", 'oxygen >= rules["care_min_do"]', 'oxygen > rules["care_min_do"]'),
    ("bag below the limit", "fish", '"bag": at_most(in_bag, ', '"bag": at_most(in_bag and in_bag + Fraction(1, 9), '),
    ("no checks without a note", "fish", "results = _checks(", "results = {} if not note else _checks("),
    ("well_boat ignored", "fish", 'if given(slip.get("well_boat"))', "if False"),
    ("dead at release ignored", "fish", 'whole(slip["dead"]) + _or_zero(slip, "dead_at_release")',
     'whole(slip["dead"])'),
    ("normal quantile", "fish", "float(stats.t.ppf(0.975, m - 1))", "Z"),
    ("no design effect", "fish", "return max(Fraction(1), v /", "return min(Fraction(1), v /"),
    ("scatter alone", "fish", "effect = (told * seen + 3 * assumed) / (told + 3)", "effect = seen"),
    ("missing fish held", "fish", 'whole(pen["held"]) - _or_zero(pen, "missing")', 'whole(pen["held"])'),
    ("never a negative Abbott", "fish", "return (treated - control) / (1 - control)",
     "return max(Fraction(0), treated - control) / (1 - control)"),
    ("too many reference fish dead", "fish", "control > Fraction(1, 5)", "control == 1"),
    ("total below initial", "fish", "(1 - max(Fraction(0), delayed))", "(1 - delayed)"),
]  # fmt: skip


@cache
def ordinary_events() -> list[tuple[Any, Any]]:
    return [(event, read_event(event)) for event in map(random_event, range(ORDINARY))]


def events_that_tell(name: str) -> list[tuple[Any, Any]]:
    planted = [planted.sheets for planted in PLANTED.values() if name in planted.tells]
    return [(event, read_event(event)) for event in planted] or ordinary_events()


@pytest.fixture
def loaded(tmp_path: Path) -> Iterator[Any]:
    """A function that loads the reading with one text replaced."""
    package = f"mutant_{tmp_path.name}".replace("-", "_")
    sys.path.insert(0, str(tmp_path))

    def load(module: str, text: str, other: str) -> Any:
        shutil.copytree(Path(__file__).parent, tmp_path / package, ignore=shutil.ignore_patterns("__pycache__"))
        source = tmp_path / package / f"{module}.py"
        before = source.read_text()
        assert before.count(text) == 1, f"{text!r} stands {before.count(text)} times in {module}"
        source.write_text(before.replace(text, other))
        importlib.invalidate_caches()
        return importlib.import_module(f"{package}.reading").read_event

    yield load
    sys.path.remove(str(tmp_path))
    for name in [name for name in sys.modules if name.partition(".")[0] == package]:
        del sys.modules[name]


@pytest.mark.parametrize(("name", "module", "text", "other"), READINGS, ids=[r[0] for r in READINGS])
def test_another_reading_is_noticed(loaded: Any, name: str, module: str, text: str, other: str) -> None:
    other_reading = loaded(module, text, other)

    def noticed(event: Any, ours: Any) -> bool:
        try:
            return bool(differences(ours, _as_json(other_reading(event))))
        except (ValueError, AttributeError, LookupError, TypeError):
            return True

    assert any(noticed(event, ours) for event, ours in events_that_tell(name))


def _as_json(found: Any) -> Any:
    """What the product would have written: exact figures as strings."""
    if isinstance(found, Fraction):
        return str(found)
    if isinstance(found, dict):
        return {name: _as_json(value) for name, value in found.items()}
    return [_as_json(value) for value in found] if isinstance(found, list) else found


def test_every_planted_event_tells_of_readings_that_are_tried() -> None:
    told = [name for planted in PLANTED.values() for name in planted.tells]
    assert len(told) == len(set(told)) and set(told) <= {name for name, *_ in READINGS}


def test_the_reading_agrees_with_itself() -> None:
    assert not any(differences(ours, _as_json(ours)) for _, ours in ordinary_events())
