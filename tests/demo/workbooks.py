"""The demo's workbooks as they lie in the folder, read with nothing of ours."""

from functools import cache
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

FOLDER = Path(__file__).resolve().parents[2] / "demo"
SEASON = (
    "01-icebreaker.xlsx", "02-dogwood-two-day.xlsx", "03-bank-spawn.xlsx",
    "04-high-summer.xlsx", "05-turnover.xlsx", "06-leaf-fall.xlsx",
    "09-long-light.xlsx", "10-early-bell.xlsx",
)  # fmt: skip
NEIGHBOURS = ("07-tarn-walleye.xlsx", "08-withy-bass.xlsx")
Row = dict[str, Any]


@cache
def cells(file: str) -> dict[str, list[tuple[Any, ...]]]:
    """The values of every sheet."""
    return {sheet.title: list(sheet.iter_rows(values_only=True)) for sheet in load_workbook(FOLDER / file)}


def rows(file: str, sheet: str) -> list[Row]:
    """The rows of a sheet by its header, empty when it has no such sheet."""
    header, *rest = cells(file).get(sheet, [()])
    return [dict(zip(header, row, strict=True)) for row in rest]


def values(file: str, sheet: str) -> Row:
    """The Event or the Rules sheet."""
    return {row["key"]: row["value"] for row in rows(file, sheet)}


def current(file: str) -> list[Row]:
    """The slips that nothing replaces and that take none out."""
    slips = rows(file, "Slips")
    gone = {slip.get("replaces") for slip in slips}
    return [slip for slip in slips if slip["slip"] not in gone and slip.get("void") != "yes"]


def pounds(written: Any) -> float:
    """A weight of an lb or an lb-oz event."""
    if isinstance(written, str):
        whole, _, ounces = written.partition("-")
        return int(whole) + float(ounces) / 16
    return float(written)


def dead_share(file: str) -> float:
    """Dead at the table or at release, of the fish presented."""
    slips = current(file)
    return sum(s["dead"] + (s.get("dead_at_release") or 0) for s in slips) / sum(s["fish"] for s in slips)
