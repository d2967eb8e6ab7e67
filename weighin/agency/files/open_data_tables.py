"""The tables of an open data export: events, their livewells, and the care practices of their boats.

Nobody may be found again in them. No name, boat number, time or weight is in; a boat's catch has a number that runs within
its event in the order of its counts, and is not the boat's. Published results name every boat with its fish and its dead, so
of single boats nothing is in that those do not say: fish died after the table stand in the event's sums alone, and how a
crew kept its fish only in the season's (``practices``). What fewer than five boats stand behind is left blank.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from weighin.agency.services.open_practices import FEWEST_WELLS
from weighin.mortality.queries.season import SeasonEvent

FEWEST = 5  # boats behind a figure
Value = str | int | float | bool | None


@dataclass(frozen=True)
class Column:
    """A column: its name, its CSVW datatype, what it means; ``required`` when it is never blank."""

    name: str
    datatype: str
    meaning: str
    required: bool = False


@dataclass(frozen=True)
class Table:
    """A CSV file: ``key`` names the columns that tell rows apart, ``of`` whether event_no refers to events.csv."""

    file: str
    title: str
    columns: Sequence[Column]
    key: Sequence[str]
    rows: Sequence[Sequence[Value]]
    of_events: bool = True


EVENT_NO = Column("event_no", "integer", "The event, numbered from 1 by date within this export", required=True)
SUPPRESSED = Column(
    "suppressed", "boolean", f"true: left blank because fewer than {FEWEST} boats stand behind it", required=True
)
EVENTS = (
    EVENT_NO,
    Column("month", "gYearMonth", "The month of its first day", required=True),
    Column("species", "string", "The fish its rule sheet names", required=True),
    Column("handling", "string", "hold_release, immediate_release or harvest", required=True),
    Column("fish_limit", "integer", "Most fish a team may present in a day", required=True),
    Column("lake_temp_f", "integer", "Mean lake temperature of its days with fish, whole °F; blank: not written"),
    SUPPRESSED,
    Column("livewells", "integer", "Livewells with fish, over all days"),
    Column("fish", "integer", "Fish brought to the scales, short ones and lost days included"),
    Column("dead_at_table", "integer", "Of them dead at the table"),
    Column("dead", "integer", "Of them dead at the table or by release"),
    Column("kept", "integer", "Live fish not released"),
    Column("held", "integer", "Tournament fish held back in pens, missing ones left out; blank: no holding study"),
    Column("held_dead", "integer", "Of them dead"),
    Column("reference_held", "integer", "Reference fish held beside them, missing ones left out"),
    Column("reference_dead", "integer", "Of them dead"),
)
LIVEWELLS = (
    EVENT_NO,
    Column(
        "livewell_no",
        "integer",
        "Runs within the event in the order of the counts; it is no boat's number",
        required=True,
    ),
    Column("fish", "integer", "Fish of one boat over all days, as the published results have them", required=True),
    Column("dead_at_table", "integer", "Of them dead at the table; later deaths are in events.csv", required=True),
)
SIDES = (
    Column("practice", "string", "The care practice", required=True),
    Column("side", "string", "Boats that kept to it, or the others, in words", required=True),
    Column(
        "suppressed",
        "boolean",
        f"true: left blank because a side has fewer than {FEWEST_WELLS} livewells or a livewell could be told",
        required=True,
    ),
    Column("livewells", "integer", "Livewells with fish on this side, over the season's events"),
    Column("fish", "integer", "Fish of them"),
    Column("dead", "integer", "Of them dead at the table or by release, as far as it is known whose they were"),
)


def tables(events: Sequence[SeasonEvent], practices: Sequence[Sequence[Value]] = ()) -> list[Table]:
    """The tables of events, oldest first, with the season's ``practices``. Events without fish are left out."""
    numbered = list(enumerate((line for line in events if line.rate is not None), start=1))
    return [
        Table(
            "events.csv", "Events", EVENTS, ("event_no",), [_event(no, line) for no, line in numbered], of_events=False
        ),
        Table(
            "livewells.csv",
            "Livewells",
            LIVEWELLS,
            ("event_no", "livewell_no"),
            [row for no, line in numbered if _told(line) for row in _livewells(no, line)],
        ),
        Table(
            "practices.csv",
            "Care practices",
            SIDES,
            ("practice", "side"),
            practices,
            of_events=False,
        ),
    ]


def _told(line: SeasonEvent) -> bool:
    return len({catch.boat for catch in line.catches if catch.fish}) >= FEWEST


def _event(no: int, line: SeasonEvent) -> list[Value]:
    found, study = line.found, line.study
    told: list[Value] = [None] * 9
    if _told(line):
        told = [found.clusters, found.presented, found.dead_at_table, found.dead, found.kept]
        told += (
            [study.tournament.fish, study.tournament.dead, study.reference.fish, study.reference.dead]
            if study
            else [None] * 4
        )
    return [
        no,
        f"{line.event.date:%Y-%m}",
        " ".join(line.rules.species.casefold().split()),
        line.event.handling,
        line.rules.fish_limit,
        round(line.lake.mean) if line.lake else None,
        not _told(line),
        *told,
    ]


def _livewells(no: int, line: SeasonEvent) -> Iterator[list[Value]]:
    boats: dict[int, list[int]] = {}
    for catch in line.catches:
        sums = boats.setdefault(catch.boat, [0, 0])
        sums[0] += catch.fish
        sums[1] += catch.dead
    for number, (fish, dead) in enumerate(sorted(sums for sums in boats.values() if sums[0]), start=1):
        yield [no, number, fish, dead]
