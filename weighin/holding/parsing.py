"""Read pens, their checks and finished rows as a person writes them."""

from collections.abc import Mapping
from datetime import datetime
from functools import partial
from typing import Any

from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar, read_clock
from weighin.events.domain.care_context import CareContext
from weighin.events.parsing.moments import read_moment
from weighin.events.parsing.rows import Reader
from weighin.holding.domain.faults import (
    FEWER_HELD_THAN_GONE,
    HELD_NO_TIME,
    LOOK_BEFORE_PEN,
    LOOK_BEFORE_START,
    MORE_GONE_THAN_HELD,
    MORE_THAN_IN_PEN,
    NEITHER_DATE_NOR_TIME,
    PEN_IS_ENDED,
    PEN_TAKEN,
)
from weighin.holding.models import HoldingPen, PenCheck, StudyPen
from weighin.rules import values
from weighin.rules.faults import Faults

PEN_FIELDS = (
    "group",
    "kind",
    "pen",
    "source",
    "species",
    "started",
    "hours",
    "held",
    "dead",
    "missing",
    "water_temp",
    "note",
)


def read_pen(written: Mapping[str, str | None], calendar: Calendar) -> dict[str, Any]:
    """A holding pen's values, the fields of ``HoldingPen``. Raises Faults with field names."""
    reader = Reader(written)
    pen: dict[str, Any] = {
        "group": reader.required("group", lambda text: values.line(text, 80), ""),
        "kind": reader.required("kind", lambda text: values.choice(text, HoldingPen.Kind.values), ""),
        "hours": reader.figure("hours", required=True),
    }
    for name, length in (("pen", 80), ("source", 200), ("species", 80)):
        pen[name] = reader.value(name, partial(values.line, most=length), "")
    pen["started"] = reader.checked("started", lambda text: _started(text, calendar))
    for name in ("held", "dead"):
        pen[name] = reader.required(name, lambda text: values.whole(text, most=100_000), 0)
    pen["missing"] = reader.value("missing", lambda text: values.whole(text, most=100_000), 0)
    pen["water_temp"] = reader.checked("water_temp", temperatures.water)
    pen["note"] = reader.value("note", values.lines, "")
    counted = {"held", "dead", "missing"}.isdisjoint(fault.field for fault in reader.faults)
    if counted and pen["dead"] + pen["missing"] > pen["held"]:
        larger, other = ("dead", "missing") if pen["dead"] >= pen["missing"] else ("missing", "dead")
        counts = {name: pen[name] for name in ("dead", "missing", "held")}
        reader.faults.append(MORE_GONE_THAN_HELD.at(larger, other, "held", **counts))
    reader.finish()
    return pen


def _started(text: str, calendar: Calendar) -> None:
    """A date, a date-time, or a time of the event's first day."""
    try:
        if len(text) > 40:
            raise ValueError
        datetime.fromisoformat(text)
    except ValueError:
        try:
            read_clock(text)
        except ValueError:
            raise NEITHER_DATE_NOR_TIME.wrong(written=text[:40]) from None


STUDY_PEN_FIELDS = ("group", "kind", "pen", "source", "species", "started", "planned_hours", "held", "note")
CHECK_FIELDS = ("at", "dead", "missing", "escaped", "water_temp", "do", "note")
RECORD_FIELDS = PEN_FIELDS
MOST_FISH = 100_000
MOST_HOURS = 1000


def read_study_pen(
    written: Mapping[str, str], care_context: CareContext, pen: StudyPen | None = None
) -> dict[str, Any]:
    """A pen under way, the fields of ``StudyPen``; ``pen`` is the one that is changed. Raises Faults with field names."""
    reader = Reader(written)
    if pen is not None and pen.record_id:
        raise Faults([PEN_IS_ENDED.at("")])
    found: dict[str, Any] = {
        "group": reader.required("group", partial(values.line, most=80), ""),
        "kind": reader.required("kind", lambda text: values.choice(text, HoldingPen.Kind.values), ""),
        "pen": reader.required("pen", partial(values.line, most=80), ""),
        "source": reader.value("source", partial(values.line, most=200), ""),
        "species": reader.value("species", partial(values.line, most=80), ""),
        "started": read_moment(reader, "started", care_context),
        "planned_hours": reader.required("planned_hours", partial(values.whole, least=1, most=MOST_HOURS), 0),
        "held": reader.required("held", partial(values.whole, least=1, most=MOST_FISH), 0),
        "note": reader.value("note", values.lines, ""),
    }
    same = StudyPen.objects.filter(event=care_context.event, group__iexact=found["group"], pen__iexact=found["pen"])
    if pen is not None:
        same = same.exclude(pk=pen.pk)
        _fits_checks(reader, found, pen)
    if _is_new(same, pen, written):
        reader.faults.append(PEN_TAKEN.at("pen", pen=found["pen"]))
    reader.finish()
    return found


def read_check(
    written: Mapping[str, str], care_context: CareContext, pen: StudyPen, check: PenCheck | None = None
) -> dict[str, Any]:
    """A look into ``pen``, the fields of ``PenCheck``. Raises Faults with field names."""
    now = StudyPen.objects.get(pk=pen.pk)
    if now.record_id:
        raise Faults([PEN_IS_ENDED.at("")])
    reader = Reader(written)
    found: dict[str, Any] = {
        "pen": now,
        "at": read_moment(reader, "at", care_context),
        "dead": reader.required("dead", partial(values.whole, most=MOST_FISH), 0),
        "missing": reader.value("missing", partial(values.whole, most=MOST_FISH), 0),
        "escaped": reader.value("escaped", partial(values.whole, most=MOST_FISH), 0),
        "water_temp": reader.checked("water_temp", temperatures.water),
        "do": reader.figure("do", most=60),
        "note": reader.value("note", values.lines, ""),
    }
    if found["at"] and found["at"] < now.started:
        reader.faults.append(LOOK_BEFORE_START.at("at_time", "at_date"))
    others = [other for other in now.checks.all() if check is None or other.pk != check.pk]
    others = [other for other in others if str(other.pk) != written.get("own_key")]
    before = sum(other.dead + other.missing + other.escaped for other in others)
    here = found["dead"] + found["missing"] + found["escaped"]
    if before + here > now.held:
        left = now.held - before
        reader.faults.append(MORE_THAN_IN_PEN.at("dead", "missing", here=here, left=left))
    reader.finish()
    return found


def read_record(written: Mapping[str, str], care_context: CareContext) -> dict[str, Any]:
    """A finished pen written down as a whole, the fields of ``HoldingPen``. Raises Faults with field names."""
    found = read_pen(written, care_context.calendar)
    if float(found["hours"]) == 0:
        raise Faults([HELD_NO_TIME.at("hours")])
    return found


def _fits_checks(reader: Reader, found: Mapping[str, Any], pen: StudyPen) -> None:
    checks = list(pen.checks.all())
    gone = sum(check.dead + check.missing + check.escaped for check in checks)
    if found["held"] and gone > found["held"]:
        reader.faults.append(FEWER_HELD_THAN_GONE.at("held", gone=gone))
    if found["started"] and checks and found["started"] > min(check.at for check in checks):
        reader.faults.append(LOOK_BEFORE_PEN.at("started_time", "started_date"))


def _is_new(same: Any, pen: StudyPen | None, written: Mapping[str, str]) -> bool:
    """Whether another pen has the name; the same form sent again is no other pen."""
    return any(str(other.pk) != written.get("own_key") for other in same)
