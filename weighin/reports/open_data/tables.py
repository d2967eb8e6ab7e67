"""The tables of an open data export: events, their livewells, and the care practices of their boats.

Nobody may be found again in them. No name, boat number, time or weight is in; a livewell has a number that runs within its
event in the order of its counts, and is not the boat's. Livewells and practices stand in tables of their own, since a
livewell's counts alone may tell whose it was once results are published, and how its crew kept their fish is nobody's business.
What fewer than five boats stand behind is left blank, the other side with it, so that neither can be worked out.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from weighin.mortality.practices import PRACTICES, wells_by
from weighin.mortality.season import SeasonEvent

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
    Column("fish", "integer", "Fish of the livewell over all days", required=True),
    Column("dead", "integer", "Of them dead at the table or by release", required=True),
)
SIDES = (
    EVENT_NO,
    Column("practice", "string", "The care practice", required=True),
    Column("side", "string", "Boats that kept to it, or the others, in words", required=True),
    SUPPRESSED,
    Column("livewells", "integer", "Livewells with fish on this side"),
    Column("fish", "integer", "Fish of them"),
    Column("dead", "integer", "Of them dead at the table or by release"),
)


def tables(events: Sequence[SeasonEvent]) -> list[Table]:
    """The tables of events, oldest first. Events without fish are left out."""
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
            ("event_no", "practice", "side"),
            [row for no, line in numbered if _told(line) for row in _sides(no, line)],
        ),
    ]


def _told(line: SeasonEvent) -> bool:
    return len(line.wells) >= FEWEST


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
    for number, (fish, dead) in enumerate(sorted((well.fish, well.dead) for well in line.wells), start=1):
        yield [no, number, fish, dead]


def _sides(no: int, line: SeasonEvent) -> Iterator[list[Value]]:
    for practice in PRACTICES:
        wells, untold = wells_by(practice, line)
        if not (wells[True] or wells[False]):
            continue
        # Blank on both sides as soon as one is small, or as soon as few boats lack a record: the event's sums are known
        unknown = len(line.wells) - len(wells[True]) - len(wells[False])
        small = min(len(wells[True]), len(wells[False])) < FEWEST or (untold > 0 and unknown < FEWEST)
        for kind, words in ((True, practice.practised), (False, practice.otherwise)):
            sums = [len(wells[kind]), sum(fish for _, fish in wells[kind]), sum(dead for dead, _ in wells[kind])]
            yield [no, practice.name, words, small, *([None] * 3 if small else sums)]
