"""End a pen: its checks are added up into the finished row that mortality figures and workbook know."""

from typing import Any

from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.events.services.revision import raise_revision
from weighin.holding.domain.faults import NO_CHECK, PEN_GONE
from weighin.holding.models import HoldingPen, StudyPen
from weighin.holding.queries import pen_so_far
from weighin.rules.faults import Faults


def end_pen(event: Event, pk: Any, by: str) -> HoldingPen:
    """Write a pen's finished row from its checks. Raises Faults when it is ended already or was never looked into."""
    with writing():
        held = (
            Event.objects.select_for_update(of=("self",))
            .select_related("season", "water", "rule_sheet")
            .get(pk=event.pk)
        )
        row = StudyPen.objects.filter(event=held, pk=pk).first()
        if row is None or row.record_id:
            raise Faults([PEN_GONE.at("")])
        pen = pen_so_far(row)
        if not pen.checks:
            raise Faults([NO_CHECK.at("")])
        zone = care_context_of(held).calendar.zone
        escaped = gettext("%(escaped)s of the missing escaped.") % {"escaped": pen.escaped} + " " if pen.escaped else ""
        record = HoldingPen.objects.create(
            event=held,
            group=row.group,
            kind=row.kind,
            pen=row.pen,
            source=row.source,
            species=row.species,
            started=f"{row.started.astimezone(zone):%Y-%m-%d %H:%M}",
            hours=pen.hours,
            held=row.held,
            dead=pen.dead,
            missing=pen.missing,
            water_temp=next((check.water_temp for check in reversed(pen.checks) if check.water_temp), ""),
            note=f"{escaped}{row.note}"[:500].strip(),
        )
        row.record = record
        row.save(update_fields=["record"])
        raise_revision(held)
        log_history(
            by,
            "study_pen.ended",
            gettext("Holding pen ended: %(row)s, %(dead)s of %(held)s dead and %(missing)s missing in %(hours)s hours")
            % {"row": row, "dead": pen.dead, "held": row.held, "missing": pen.missing, "hours": pen.hours},
            club_id=held.season.club_id,
            event_id=held.pk,
            subject=str(row),
            details={"held": row.held, "dead": pen.dead, "missing": pen.missing, "hours": pen.hours},
        )
    return record
