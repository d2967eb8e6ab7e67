"""Read one weigh slip from written values, as a workbook row, a form or a message gives them."""

from collections.abc import Collection, Mapping
from datetime import datetime
from typing import Any

from weighin.checkin.domain.lateness import check_lateness
from weighin.events.domain.table import Table
from weighin.records.parsing.reader import Reader
from weighin.rules import scoring
from weighin.rules.faults import FieldName, Wrong
from weighin.rules.values import yes_no
from weighin.slips.domain import faults
from weighin.slips.domain.fields import AT_RELEASE, CLOCK, FIELDS, SPECIES
from weighin.slips.domain.values import SlipData, rules_slip
from weighin.ui import figures

TIMES_IN_ORDER = (
    ("first_fish", "checked_in"),
    ("launched", "checked_in"),
    ("bag_issued", "weighed"),
    ("weighed", "bag_emptied"),
    ("bag_issued", "bag_emptied"),
    ("weighed", "released"),
)


def read_slip(
    written: Mapping[str, str | None],
    table: Table,
    care_times: Mapping[str, datetime] | None = None,
    current: bool = True,
    whole: bool = True,
    unsure: Collection[str] = (),
) -> SlipData:
    """Read a slip. ``written`` maps field names to text; ``care_times`` may hold the care note's
    ``launched`` and ``first_fish`` of the same boat and day, so that the order of times can be checked.
    A slip that is not ``current``, because another replaces it or it is a void, may stand on a cancelled day,
    against the care note and before the day's start. Not ``whole``, each field is read by itself and nothing is said
    of how they fit together.
    ``unsure`` names fields and keys of the rule sheet that could not be read: nothing is said that hangs on them.

    Raises Faults with the names of the wrong fields, all at once.
    """
    try:
        void, unread = yes_no(written.get("void") or "no"), None
    except Wrong as wrong:
        void, unread = False, wrong.at("void")
    needed = [field.name for field in FIELDS if field.required and (not void or field.name in ("boat", "day"))]
    reader = Reader(FIELDS, written, table, current=current and not void, needed=needed, unsure=unsure)
    reader.read()
    if unread is not None:
        reader.faults.append(unread)
    if whole and not void:
        check_slip(reader, care_times or {})
    return SlipData(**reader.finish(), void=void)


def check_slip(reader: Reader, care_times: Mapping[str, datetime]) -> None:
    """Name what can only be said of several fields together; those that are wrong by themselves are left out."""
    slip = SlipData(**reader.values)
    check_lateness(reader)
    gone = {name: reader[name] or 0 for name in AT_RELEASE}
    if sum(gone.values()) > slip.alive and reader.sure("dead_at_release", "kept", "alive"):
        larger, other = sorted(AT_RELEASE, key=lambda name: -gone[name])
        counts = {"dead": gone["dead_at_release"], "kept": gone["kept"], "alive": slip.alive}
        reader.fault(larger, faults.MORE_GONE_THAN_ALIVE, other, "alive", **counts)
    species = {name: reader[name] for name in SPECIES if reader[name]}
    if sum(species.values()) > slip.fish and reader.sure("fish", *SPECIES):
        most, *others = sorted(species, key=lambda name: -species[name])
        reader.fault(most, faults.MORE_SPECIES_THAN_FISH, *others, counted=sum(species.values()), fish=slip.fish)
    _check_times(reader, care_times if reader.current else {})
    _check_score(reader, slip)


def _check_score(reader: Reader, slip: SlipData) -> None:
    # As of a boat on time: what the check-in table says may change, and a slip must be sound whatever it comes to
    table = Table(reader.context.calendar, reader.context.rules, reader.context.boats)
    unsure = {*reader.unsure, *(fault.field for fault in reader.faults)}
    if not unsure.isdisjoint(scoring.LATENESS):
        slip = SlipData(**{**vars(slip), "checked_in": None, "minutes_late": None})
    try:
        plain = rules_slip(slip, table)
    except ValueError:  # a due time that the clocks skip is named where it is written
        plain = rules_slip(SlipData(**{**vars(slip), "checked_in": None}), table)
        unsure.add("checked_in")
    reader.faults.extend(scoring.faults(table.rules, plain, unsure))


def _check_times(reader: Reader, care_times: Mapping[str, datetime]) -> None:
    known = {**care_times, **{name: reader[name] for name in CLOCK if reader[name]}}
    for earlier, later in TIMES_IN_ORDER:
        if earlier in known and later in known and known[earlier] > known[later]:
            said = {"later": FieldName(later), "earlier": FieldName(earlier)}
            reader.fault(later, faults.TIMES_OUT_OF_ORDER, earlier, **said)
    end = "released" if "released" in known else "weighed"
    start = known.get("first_fish") or known.get("launched") or _start(reader, reader["day"])
    early = start is not None and end in known and known[end] < start
    if not (early and reader.current and reader.sure(*CLOCK, "start_time")):
        return
    day, going_on = reader["day"], _day_of(reader, known[end])
    # A time of day takes its date from the day, so that it speaks of no other day
    if going_on < day and len(reader.texts.get(end, "")) > len("14:42:00"):
        begins = _start(reader, day).astimezone(reader.context.calendar.zone)
        when = figures.moment(begins)
        reader.fault("day", faults.OF_AN_EARLIER_DAY, end, day=day, begins=when, other=going_on)
    else:
        reader.fault(end, faults.BEFORE_THE_DAY, field=FieldName(end))


def _day_of(reader: Reader, moment: datetime) -> int:
    """The last fished day that had begun by then; before the first one the last of all."""
    calendar = reader.context.calendar
    begun = [day for day in calendar.fished if (start := _start(reader, day)) is not None and start <= moment]
    return int(max(begun, default=max(calendar.days)))


def _start(reader: Reader, day: int | None) -> Any:
    """When the day starts; None while that cannot be told, which is named where it is written."""
    try:
        return reader.context.calendar.start(day)
    except (ValueError, KeyError):
        return None
