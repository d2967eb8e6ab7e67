"""The federation's summary as JSON or as sheets, every key with its meaning in ``KEYS``."""

import json
from collections.abc import Sequence
from typing import Any

from weighin.mortality.services.federation import FEWEST_CLUBS, PROTECTION, Federation, Row
from weighin.reports.domain.sheet import Sheet, SheetColumn
from weighin.reports.writers.xlsx_file import write_xlsx

FORMS = ("json", "xlsx")
KEYS: dict[str, str] = {
    "says": "the finding in sentences, kind by kind of fish; or why nothing is shown",
    "level": "confidence level of every range",
    "fewest_clubs": "clubs with fish that a figure takes at least",
    "protection": "what a figure's fish, and its dead, are at least without its two largest clubs, as a share of the largest (p% rule)",
    "through": "the last calendar year in it; figures of a year are fixed at the first run after its end",
    "edition": "blank: all editions; else the year's edition in which the row was fixed; its events are in no other",
    "species": "one entry for each kind of fish that the rule sheets name",
    "by_year": "by the year of the event",
    "by_lake": "by the lake's mean temperature on its days with fish",
    "name": "the kind, year or band; what too few clubs stand behind is put together with others",
    "clubs": "clubs with fish behind the figure",
    "events": "events with fish behind it",
    "presented": "fish brought to the scales",
    "dead": "dead at the table or by release",
    "kept": "live fish not released",
    "initial": "dead / presented: the least that died",
    "low": "lower limit of initial, each club one cluster, down to a whole per cent",
    "high": "upper limit of initial, up to a whole per cent",
}
CAUTION = (
    "Events are put together as they were fished: waters, months and rules differ, and what went together is not what did it.",
    "Fish that died after release are not in it.",
)
_COLUMNS = ("edition", "name", "clubs", "events", "presented", "dead", "kept", "initial", "low", "high")


def federation_file(found: Federation, form: str) -> bytes:
    """The summary as ``json`` or ``xlsx``. Raises KeyError for another form."""
    return {"json": _json, "xlsx": _xlsx}[form](found)


def federation_document(found: Federation) -> dict[str, Any]:
    """The summary with the keys of ``KEYS``."""
    return {
        "says": found.says,
        "level": 0.95,
        "fewest_clubs": FEWEST_CLUBS,
        "protection": PROTECTION,
        "through": found.through,
        "species": [
            {
                **_values(one.total),
                "by_year": [_values(row) for row in one.by_year],
                "by_lake": [_values(row) for row in one.by_lake],
            }
            for one in found.species
        ],
    }


def _json(found: Federation) -> bytes:
    return (json.dumps(federation_document(found), indent=1, ensure_ascii=False) + "\n").encode()


def _xlsx(found: Federation) -> bytes:
    sheets = [_sheet("All clubs", [one.total for one in found.species], (found.says, *CAUTION))]
    for one in found.species:
        if one.by_year or one.by_lake:
            sheets.append(_sheet(f"{one.total.name} by year", one.by_year))
            sheets.append(_sheet(f"{one.total.name} by lake", one.by_lake))
    meanings = [(key, meaning) for key, meaning in KEYS.items() if key in _COLUMNS]
    return write_xlsx([*sheets, Sheet("Columns", [SheetColumn("column"), SheetColumn("meaning")], meanings)])


def _sheet(title: str, rows: Sequence[Row], after: Sequence[str] = ()) -> Sheet:
    columns = [SheetColumn(name, figures=name != "name") for name in _COLUMNS]
    return Sheet(title, columns, [list(_values(row).values()) for row in rows], after=after)


def _values(row: Row) -> dict[str, Any]:
    rate = row.rate
    found = (row.edition or None, row.name, row.clubs, row.events, int(rate.n), int(rate.dead), row.kept)
    return dict(zip(_COLUMNS, (*found, rate.rate, rate.low, rate.high), strict=True))
