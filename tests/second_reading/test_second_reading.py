"""The product against the second reading: random events in, the same figures out; planted faults named.

`SECOND_READING_SEEDS` raises the number of random events (60 in the ordinary suite, 300 for a long run);
`SECOND_READING_FROM` is the first seed.
"""

from __future__ import annotations

import json
import os
import re
from io import StringIO
from pathlib import Path
from random import Random
from typing import Any

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command
from django.db import transaction

from weighin.events.models import Event
from weighin.slips.services.slips import record_slip

from . import workbook
from .comparison import differences
from .drawing.generate import random_event
from .drawing.plant import FAULTS, ROW_3_OF_SLIPS, TOGETHER, PlantedFault, Planting
from .drawing.planted_readings import PLANTED
from .plain_event import plain_event
from .reading import current_slips, read_event
from .rule_sheet import KEYS

FIRST = int(os.environ.get("SECOND_READING_FROM", "0"))
SEEDS = range(FIRST, FIRST + int(os.environ.get("SECOND_READING_SEEDS", "60")))

pytestmark = [pytest.mark.django_db, pytest.mark.database]


def run(*arguments: str) -> tuple[int, str]:
    """A management command's exit status and everything it printed."""
    out = StringIO()
    status = 0
    try:
        call_command(*arguments, stdout=out, stderr=out)
    except CommandError as error:
        status = error.returncode
        out.write(f"{error}\n")
    except SystemExit as stopped:
        status = stopped.code if isinstance(stopped.code, int) else 1
    return status, out.getvalue()


def imported(path: Path) -> str:
    """Import a workbook; the slug, "alone on its last line"."""
    status, printed = run("import_event", str(path))
    assert status == 0, printed
    return printed.strip().splitlines()[-1].strip()


def exported(slug: str, path: Path) -> Any:
    """The event's JSON."""
    status, printed = run("export_event", slug, "--format", "json", "--out", str(path))
    assert status == 0, printed
    return json.loads(path.read_text(encoding="utf-8"))


def rows_of_every_table() -> dict[str, int]:
    return {model._meta.label: model._base_manager.count() for model in apps.get_models()}


def written(seed: int, folder: Path) -> Path:
    path = folder / f"event-{seed}.xlsx"
    workbook.write(random_event(seed), path, Random(f"spelling {seed}"))
    return path


@pytest.mark.parametrize("seed", SEEDS)
def test_the_product_reads_an_event_as_the_second_reading_does(seed: int, tmp_path: Path) -> None:
    found = exported(imported(written(seed, tmp_path)), tmp_path / "event.json")
    wrong = differences(read_event(random_event(seed)), found)
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("name", PLANTED)
def test_the_product_reads_a_planted_event_as_the_second_reading_does(name: str, tmp_path: Path) -> None:
    workbook.write(PLANTED[name].sheets, tmp_path / "planted.xlsx")
    found = exported(imported(tmp_path / "planted.xlsx"), tmp_path / "event.json")
    wrong = differences(read_event(PLANTED[name].sheets), found)
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("seed", SEEDS[::3])
def test_an_exported_workbook_brings_the_same_event_into_an_empty_site(seed: int, tmp_path: Path) -> None:
    before = transaction.savepoint()
    slug = imported(written(seed, tmp_path))
    first = exported(slug, tmp_path / "first.json")
    status, printed = run("export_event", slug, "--format", "xlsx", "--out", str(tmp_path / "again.xlsx"))
    assert status == 0, printed
    again = workbook.read(tmp_path / "again.xlsx")
    assert {row["key"] for row in again["Rules"]} == set(KEYS)  # "export writes every key"
    wrong = differences(read_event(again), first)
    assert not wrong, "\n".join(wrong)
    transaction.savepoint_rollback(before)  # an empty site again
    assert not any(count for label, count in rows_of_every_table().items() if label.startswith("scale."))
    second = exported(imported(tmp_path / "again.xlsx"), tmp_path / "second.json")
    for found in (first, second):
        del found["ledger"]["head"]  # the chain holds ids and times of the import itself
    assert second == first


def test_weights_and_money_are_strings_and_the_structure_is_complete(tmp_path: Path) -> None:
    workbook.write(plain_event(), tmp_path / "plain.xlsx")
    found = exported(imported(tmp_path / "plain.xlsx"), tmp_path / "plain.json")
    assert not differences(read_event(plain_event()), found)
    assert set(found) == {"event", "standings", "purse", "fish_care", "mortality", "ledger"}
    assert found["event"]["slug"] and found["event"]["status"] and found["ledger"]["head"]
    standing = next(row for row in found["standings"] if row["boat"] == 1)
    for name in ("gross", "penalty", "bonus", "total", "big_fish", "payout", "big_fish_payout"):
        assert isinstance(standing[name], str), name
    for name in ("gross", "bonus", "total"):
        assert isinstance(standing["days"][0][name], str), name
    for name in ("purse", "unclaimed", "big_fish_pot", "big_fish_pot_unclaimed"):
        assert isinstance(found["purse"][name], str), name
    amounts = [d["amount"] for s in found["standings"] for day in s["days"] for d in day["deductions"]]
    assert amounts and all(isinstance(amount, str) for amount in amounts)
    assert "note" not in standing


FAULT_LINE = re.compile(r"^\s*([^!\n]+)!(\$?[A-Z]+\$?\d+): (\S.*)$", re.MULTILINE)


# Cells that may be named beside the fault itself, because they depend on the faulty row: a correction of a slip
# that cannot be read, teams of a flight that cannot be read, a slip left current by a wrong `replaces`.
NOTHING = re.compile(r"(?!)")
FOLLOWS = {
    **dict.fromkeys(ROW_3_OF_SLIPS, re.compile(r"slips!AE4")),
    **dict.fromkeys(
        ["no flight in Flights", "no due_time in Flights", "unknown day of a flight"], re.compile(r"teams!G\d")
    ),
    **dict.fromkeys(["replaces no slip", "replaces another boat's slip"], re.compile(r"slips!C4")),
    "no gross with fish on the scale": re.compile(r"slips!L2"),
}


def listed(printed: str) -> dict[str, str]:
    """Address -> messages, sheet names as a file may spell them."""
    lines: dict[str, str] = {}
    for sheet, at, message in FAULT_LINE.findall(printed):
        name = f"{re.sub(r'[ _-]', '', sheet).lower()}!{at}"
        lines[name] = f"{lines.get(name, '')} {message}"
    return lines


def plainly(cells: set[str]) -> set[str]:
    return {re.sub(r"[ _-]", "", cell.partition("!")[0]).lower() + "!" + cell.partition("!")[2] for cell in cells}


@pytest.mark.parametrize("unit", ["lb", "lb-oz", "kg"])
def test_the_plain_event_has_no_fault(unit: str, tmp_path: Path) -> None:
    before = rows_of_every_table()
    workbook.write(plain_event(unit), tmp_path / "plain.xlsx")
    status, printed = run("import_event", str(tmp_path / "plain.xlsx"), "--check")
    assert (status, listed(printed)) == (0, {}), printed
    assert rows_of_every_table() == before


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name.replace(" ", "-"))
def test_a_planted_fault_is_named_by_its_cell_and_changes_nothing(fault: PlantedFault, tmp_path: Path) -> None:
    planting = Planting(fault.unit)
    cells = plainly(fault.plant(planting))
    planting.save(tmp_path / "faulty.xlsx")
    before = rows_of_every_table()
    status, printed = run("import_event", str(tmp_path / "faulty.xlsx"), "--check")
    assert status == 1, printed
    found = listed(printed)
    assert cells & found.keys(), f"none of {sorted(cells)} in\n{printed}"
    sound = {at for at in found.keys() - cells if not FOLLOWS.get(fault.name, NOTHING).fullmatch(at)}
    assert not sound, f"sound cells are named:\n{printed}"
    message = " ".join(text for at, text in found.items() if at in cells)
    assert all(word in message for word in fault.says), printed
    assert rows_of_every_table() == before


def test_an_import_with_a_fault_is_refused_whole(tmp_path: Path) -> None:
    planting = Planting("lb")
    cells = plainly(next(f for f in FAULTS if f.name == "dead + missing > held").plant(planting))
    planting.save(tmp_path / "faulty.xlsx")
    before = rows_of_every_table()
    status, printed = run("import_event", str(tmp_path / "faulty.xlsx"))
    assert status == 1
    assert cells & listed(printed).keys(), printed
    assert rows_of_every_table() == before


def test_all_faults_are_listed_not_the_first(tmp_path: Path) -> None:
    planting = Planting("lb")
    planted = {fault.name: plainly(fault.plant(planting)) for fault in TOGETHER}
    assert len(planted) == 10
    planting.save(tmp_path / "faulty.xlsx")
    status, printed = run("import_event", str(tmp_path / "faulty.xlsx"), "--check")
    assert status == 1
    found = listed(printed)
    assert [name for name, cells in planted.items() if not cells & found.keys()] == [], printed


def test_what_is_unknown_is_named_in_a_warning(tmp_path: Path) -> None:
    planting = Planting("lb")
    planting.book.create_sheet("Lunch").append(["sandwich"])
    planting.book["Teams"].cell(1, 20).value = "shoe_size"
    planting.add("Rules", key="bait_cost", value="3")
    planting.save(tmp_path / "more.xlsx")
    status, printed = run("import_event", str(tmp_path / "more.xlsx"), "--check")
    assert status == 0, printed
    assert [name for name in ("Lunch", "shoe_size", "bait_cost") if name not in printed] == []


def test_an_event_is_not_imported_twice(tmp_path: Path) -> None:
    workbook.write(plain_event(), tmp_path / "plain.xlsx")
    imported(tmp_path / "plain.xlsx")
    before = rows_of_every_table()
    for arguments in ([], ["--replace"]):  # replacing is only "before its first slip at the table"
        status, printed = run("import_event", str(tmp_path / "plain.xlsx"), *arguments)
        assert status == 1 and printed.strip()
        assert rows_of_every_table() == before


DOUBLED = range(FIRST, FIRST + len(SEEDS) // 3)


@pytest.mark.parametrize("seed", DOUBLED)
def test_doubled_days_are_read_as_the_second_reading_does(seed: int, tmp_path: Path) -> None:
    """A workbook holds no two slips of a day, so they are written after it came in, and some are settled."""
    sheets = random_event(seed)
    rng = Random(f"doubled {seed}")
    slug = imported(written(seed, tmp_path))
    event = Event.objects.select_related("rule_sheet", "season").get(slug=slug)
    current = current_slips(sheets)
    for row in rng.sample(current, min(len(current), rng.randint(1, 4))):
        second = {name: text for name, text in row.items() if name not in ("slip", "replaces", "reason", "void")}
        if rng.random() < 0.5:
            second |= {"extra_penalty": "1 oz" if "oz" in event.weight_unit else "0.15"}
            second["extra_penalty_reason"] = "wake"
        else:
            second["disqualified_reason"] = "out of bounds" if "disqualified_reason" not in second else ""
        sheets["Slips"].append(second)
        record_slip(event, second, "quill")
    wrong = differences(read_event(sheets), exported(slug, tmp_path / "event.json"))
    assert not wrong, "\n".join(wrong)
