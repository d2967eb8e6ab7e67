"""End a pen: its checks are added up into the finished row that mortality figures and workbook know."""

from typing import Any

from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.holding.domain import faults
from weighin.holding.models import HoldingPen, StudyPen
from weighin.holding.queries import pen_so_far
from weighin.holding.services.pens import FINISHED_PEN
from weighin.records.domain.messages import Sender
from weighin.records.services.door import write_many
from weighin.roster.services.event_scope import EVENT
from weighin.rules.faults import Faults


def end_pen(event: Event, pk: Any, by: str) -> HoldingPen:
    """Write a pen's finished row from its checks. Raises Faults when it is ended already or was never looked into."""
    with writing():
        context = EVENT.lock(event.pk)
        row = StudyPen.objects.filter(event=context.event, pk=pk).first()
        if row is None or row.record_id:
            raise Faults([faults.PEN_GONE.at("")])
        pen = pen_so_far(row)
        if not pen.checks:
            raise Faults([faults.NO_CHECK.at("")])
        escaped = gettext("%(escaped)s of the missing escaped.") % {"escaped": pen.escaped} + " " if pen.escaped else ""
        values = {
            **{name: getattr(row, name) for name in ("group", "kind", "pen", "source", "species", "held")},
            "started": f"{row.started.astimezone(context.calendar.zone):%Y-%m-%d %H:%M}",
            "hours": pen.hours,
            "dead": pen.dead,
            "missing": pen.missing,
            "water_temp": next((check.water_temp for check in reversed(pen.checks) if check.water_temp), ""),
            "note": f"{escaped}{row.note}"[:500].strip(),
        }
        [record] = write_many(FINISHED_PEN, context, [values], Sender(by))
        row.record = record
        row.save(update_fields=["record"])
        log_history(
            by,
            "study_pen.ended",
            gettext("Holding pen ended: %(row)s, %(dead)s of %(held)s dead and %(missing)s missing in %(hours)s hours")
            % {"row": row, "dead": pen.dead, "held": row.held, "missing": pen.missing, "hours": pen.hours},
            club_id=context.club_id,
            event_id=context.event_id,
            subject=str(row),
            details={"held": row.held, "dead": pen.dead, "missing": pen.missing, "hours": pen.hours},
        )
    return record
