"""Let the time of a boat's slip or of its check-in count in both."""

import uuid

from weighin.audit.services import writing
from weighin.checkin.queries.roll import boat_on_roll
from weighin.checkin.services.check_ins import record_check_in
from weighin.events.models import Event
from weighin.roster.services.event_scope import EVENT
from weighin.rules.faults import Faults
from weighin.slips.domain.faults import NOT_SAID_WHICH, SETTLED_WITHOUT_REASON, SLIP_AND_CHECK_IN_AGREE
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import leave_time_to_the_check_in


def settle_time(event: Event, day: int, boat: int, counts: str, reason: str, by: str, official: str) -> None:
    """Where a boat's slip and its check-in differ, let the one named by ``counts`` (``slip``, ``check-in``) stand in both.

    The other is corrected with the reason. Raises Faults, also when there is nothing to settle any more.
    """
    with writing():
        found = boat_on_roll(EVENT.open(event.pk).event, day, boat)
        slip = found.slip_differs if found else None
        if found is None or slip is None:
            raise Faults([SLIP_AND_CHECK_IN_AGREE.at("", boat=boat)])
        if counts not in ("slip", "check-in"):
            raise Faults([NOT_SAID_WHICH.at("")])
        if counts == "check-in":
            assert isinstance(slip, WeighSlip)
            leave_time_to_the_check_in(slip, reason, by)
            return
        if not reason.strip():
            raise Faults([SETTLED_WITHOUT_REASON.at("reason")])
        old = found.times[0]
        of_slip = slip if slip.checked_in or slip.minutes_late is not None else old
        said = {
            "boat": str(boat), "day": str(day), "whereabouts": old.whereabouts, "word": old.word, "note": old.note,
            "checked_in": of_slip.checked_in.isoformat() if of_slip.checked_in else "",
            "minutes_late": "" if of_slip.minutes_late is None else str(of_slip.minutes_late),
            "excused_minutes": "" if of_slip.minutes_late is not None else slip.excused_minutes or "0",
            "told_at": old.told_at.isoformat() if old.told_at else "", "official": official, "reason": reason,
        }  # fmt: skip
        record_check_in(event, said, by, uuid.uuid4(), old)
