"""What the roll asks of slips: which boats were weighed, and which have missed the cut."""

from typing import Any

from django.db.models import QuerySet

from weighin.checkin.domain.evidence import Evidence
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.queries.cut import fish_no_more


def _slips(event: Event, **only: Any) -> QuerySet[WeighSlip]:
    return WeighSlip.objects.current().filter(event=event, **only).order_by("number")


FOR_THE_ROLL = Evidence(_slips, fish_no_more)
