"""The slips that a failed check of a scale casts doubt on, and the readings a slip's weights came from.

A slip does not name its scale. With one scale in the event every slip is its. With several a slip belongs to the scale
its readings came from; without readings, to the scale that its station is written beside; where neither is known it
may be any scale's, and a failed check of any marks it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from uuid import UUID

from weighin.events.models import Event
from weighin.scales.models import Scale, ScaleReading
from weighin.scales.queries import Failure, checks_of, failures_of, tested
from weighin.slips.models import WeighSlip

STATION = "station "


@dataclass(frozen=True)
class Mark:
    """Why a slip is in doubt. ``sure``: it is known that it was weighed on the scale."""

    failures: tuple[Failure, ...]
    sure: bool

    @property
    def error(self) -> Decimal:
        """The largest error seen."""
        return max(one.error for one in self.failures)


@dataclass(frozen=True)
class Doubts:
    """The failures of an event's scales, and the slips they mark by id."""

    failures: tuple[Failure, ...] = ()
    marks: dict[UUID, Mark] = field(default_factory=dict)


def doubts_of(event: Event, slips: Iterable[WeighSlip]) -> Doubts:
    """The failures, and which of the slips they mark; one query where no check failed, four where one did."""
    unit = event.weight_unit
    failures = failures_of([one for one in tested(checks_of(event)) if one.check.unit == unit])
    if not failures:
        return Doubts()
    origins = _origins(event)
    marks = {}
    for slip in slips:
        known = origins.of(slip)
        moment = slip.weighed or slip.received_at
        found = [one for one in failures if (not known or one.scale.pk in known) and one.covers(moment)]
        if found and not slip.void:
            marks[slip.pk] = Mark(tuple(found), bool(known))
    return Doubts(tuple(failures), marks)


@dataclass(frozen=True)
class _Origins:
    """Which scale a slip was weighed on, as far as it is known; a corrected slip was weighed where the first one was."""

    scales: Sequence[Scale]
    read_from: dict[UUID, set[int]]
    beside: dict[str, int]
    before: dict[UUID, tuple[UUID, str]]

    def of(self, slip: WeighSlip) -> set[int]:
        """The ids of its scales; none when it is not recorded."""
        if len(self.scales) == 1:
            return {self.scales[0].pk}
        chain, by = [slip.pk], [slip.recorded_by]
        while chain[-1] in self.before:
            earlier, recorded_by = self.before[chain[-1]]
            chain.append(earlier)
            by.append(recorded_by)
        read = next((self.read_from[one] for one in chain if one in self.read_from), set())
        return read or next(({self.beside[name]} for name in by if name in self.beside), set())


def _origins(event: Event) -> _Origins:
    scales = list(Scale.objects.filter(event=event))
    read_from: dict[UUID, set[int]] = {}
    taken = ScaleReading.objects.filter(event=event, scale__isnull=False)
    for slip_id, scale_id in taken.values_list("slip_id", "scale_id"):
        read_from.setdefault(slip_id, set()).add(scale_id)
    beside = {f"{STATION}{name}": scale.pk for scale in scales for name in scale.station_names}
    corrections = WeighSlip.objects.filter(event=event, replaces__isnull=False)
    before = {
        pk: (earlier, by) for pk, earlier, by in corrections.values_list("pk", "replaces_id", "replaces__recorded_by")
    }
    return _Origins(scales, read_from, beside, before)


def readings_of(slip: WeighSlip) -> list[ScaleReading]:
    """The lines that the slip's weights came from."""
    return list(ScaleReading.objects.filter(event=slip.event_id, slip_id=slip.pk).select_related("scale"))
