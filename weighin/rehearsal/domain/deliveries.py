"""What the tablets of a rehearsal send, and when: check-ins, slips, care notes; one tablet loses its link for a while,
a boat is written down twice, and some bodies come again. Pure."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import uuid4

from weighin.line.domain.day import Way

CHECK_INS, SLIPS, NOTES = "checkins", "slips", "notes"
# Under which address a kind of row is sent, and what a station must be able to do
ADDRESSES = {CHECK_INS: "checkins", SLIPS: "slips", NOTES: "care"}
CANS = {CHECK_INS: "checkin", SLIPS: "weigh", NOTES: "care"}
OFFICIAL = "Rehearsal"
LOST_FROM, LOST_TO, FOUND_AFTER_MIN = 0.4, 0.7, 5.0  # of the slips in their order, and when the tablet is back; ours
EVERY_SEVENTH = 7  # body is sent twice
AGAIN_AFTER_MIN = 1.0
MOST_AT_ONCE = 50


@dataclass(frozen=True)
class Delivery:
    """One body of one tablet: at which minute, of which kind."""

    minute: float
    tablet: str
    kind: str
    items: tuple[dict[str, Any], ...]


def deliveries(
    ways: Sequence[Way],
    catches: Mapping[int, dict[str, Any]],
    day: int,
    scales: int,
    moment: Callable[[float], datetime],
) -> list[Delivery]:
    """Everything that is sent, in order of time. ``moment`` turns minutes of the day's clock into moments."""

    def item(boat: int, **said: Any) -> dict[str, Any]:
        return {"id": str(uuid4()), "day": day, "boat": boat, "official": OFFICIAL, **said}

    def at(minute: float) -> str:
        return moment(minute).isoformat()

    found = [
        Delivery(way.checked_in, "Check-in", CHECK_INS, (item(way.boat, checked_in=at(way.checked_in)),))
        for way in ways
    ]
    written = []
    for place, way in enumerate(sorted(ways, key=lambda way: way.weighed)):
        said = catches[way.boat]
        slip = item(way.boat, **said, bag_issued=at(way.bag_issued), weighed=at(way.weighed))
        written.append(Delivery(way.weighed, f"Scale {place % scales + 1}", SLIPS, (slip,)))
        note = item(way.boat, pump_ok=True, most_on_board=said["fish"])
        found.append(Delivery(way.weighed + AGAIN_AFTER_MIN, "Fish care", NOTES, (note,)))
    found += [*_through_a_lost_link(written), *_again(written), *_twice(written)]
    return sorted(found, key=lambda one: one.minute)


def _lost(written: Sequence[Delivery]) -> list[Delivery]:
    """The slips that the first scale's tablet cannot send when they are written."""
    begun, over = (int(share * len(written)) for share in (LOST_FROM, LOST_TO))
    return [one for one in written[begun:over] if one.tablet == "Scale 1"]


def _through_a_lost_link(written: Sequence[Delivery]) -> Iterable[Delivery]:
    """Every slip once; what a tablet kept for itself comes when it is back, behind what it is not sure was taken."""
    lost = _lost(written)
    yield from (one for one in written if one not in lost)
    if lost:
        before = [one for one in written if one.tablet == lost[0].tablet and one.minute < lost[0].minute][-2:]
        slips = [one.items[0] for one in (*before, *lost)]
        for begun in range(0, len(slips), MOST_AT_ONCE):
            some = tuple(slips[begun : begun + MOST_AT_ONCE])
            yield Delivery(lost[-1].minute + FOUND_AFTER_MIN, lost[0].tablet, SLIPS, some)


def _again(written: Sequence[Delivery]) -> Iterable[Delivery]:
    """Bodies whose answer did not come through."""
    lost = _lost(written)
    for one in written[EVERY_SEVENTH - 1 :: EVERY_SEVENTH]:
        if one not in lost:
            yield Delivery(one.minute + AGAIN_AFTER_MIN, one.tablet, SLIPS, one.items)


def _twice(written: Sequence[Delivery]) -> Iterable[Delivery]:
    """One boat's slip, written at another place of the table too."""
    lost = _lost(written)
    once = [one for one in written if one not in lost]
    if len(once) > 1:
        one = once[len(once) // 2]
        again = {**one.items[0], "id": str(uuid4()), "note": "Written a second time"}
        yield Delivery(one.minute + 2 * AGAIN_AFTER_MIN, one.tablet, SLIPS, (again,))
