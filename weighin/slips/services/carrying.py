"""The lines of a scale go where the weights go that were taken from them."""

import uuid
from collections.abc import Iterable

from weighin.scales.models import ScaleReading
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import history_of


def carry_readings(pairs: Iterable[tuple[WeighSlip, WeighSlip]]) -> None:
    """Write the lines behind each first slip beside the second; call inside ``writing``.

    Without lines of its own a slip's are those of the last one that it corrects. Lines are only added: those of the
    first slip stay where they are.
    """
    found = []
    for old, new in pairs:
        before = [slip.pk for slip in history_of(old) if slip.position <= old.position]
        lines: dict[uuid.UUID, list[ScaleReading]] = {}
        for reading in ScaleReading.objects.filter(event=old.event_id, slip_id__in=before):
            lines.setdefault(reading.slip_id, []).append(reading)
        for reading in next((lines[pk] for pk in reversed(before) if pk in lines), []):
            reading.pk, reading.slip_id = uuid.uuid4(), new.pk
            reading._state.adding = True
            found.append(reading)
    ScaleReading.objects.bulk_create(found)
