"""Write the roll: a boat is in, a word came, a flight launched, a boat towed another."""

import uuid
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta

from django.utils import timezone

from weighin.audit.services import log_history, writing
from weighin.checkin.domain.faults import (
    EXCUSE_WITHOUT_REASON,
    MINUTES_LATE_ON_LINE,
    NO_MINUTES_EXCUSED,
    NO_SUCH_BOAT_TO_TOW,
    NO_SUCH_DAY_ON_ROLL,
    NO_WHEREABOUTS,
    NOBODY_EXCUSED,
    TOWED_BOAT_MISSING,
    TOWS_ITSELF,
)
from weighin.checkin.models import CheckIn
from weighin.checkin.queries.roll import IN, boat_on_roll, roll_of
from weighin.checkin.services.check_ins import record_check_in
from weighin.events.models import Event
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules import values
from weighin.rules.faults import Faults, Wrong

Where = CheckIn.Whereabouts
PRESSED_AT_MOST = timedelta(minutes=10)
PRESSED_AHEAD = timedelta(seconds=2)
EXCUSED = {"towing": ("towing",), "towed": ("towed",), "both": ("towing", "towed")}
MOST_EXCUSED = 2880


def check_in_now(
    event: Event, day: int, boat: int, by: str, official: str, id: uuid.UUID, pressed: datetime | None = None
) -> CheckIn:
    """The boat is in, by water, at this moment. Pressed twice it is in once. Raises Faults.

    ``pressed`` is when the button was pressed, by a page that keeps the site's time; it counts when it lies within
    the last ten minutes, so that a slow link makes no boat late. Otherwise the site's clock does.
    """
    kept: CheckIn | None = (
        CheckIn.objects.filter(pk=id, event=event, day=day, entry__boat=boat).select_related("entry").first()
    )
    if kept is not None:
        return kept
    now = timezone.now()
    near = pressed is not None and now - PRESSED_AT_MOST <= pressed <= now + PRESSED_AHEAD
    moment = pressed if pressed is not None and near else now
    said = {
        "boat": str(boat), "day": str(day), "whereabouts": Where.IN_BY_WATER, "official": official,
        "checked_in": moment.replace(microsecond=0).isoformat(),
    }  # fmt: skip
    return record_check_in(event, said, by, id)


def take_word(
    event: Event, day: int, boat: int, said: Mapping[str, str], by: str, id: uuid.UUID, old: CheckIn | None = None
) -> CheckIn:
    """Keep what was said of a boat, or correct the line ``old``.

    ``said`` holds ``whereabouts``, ``time``, ``word``, ``excused_minutes``, ``official``, ``log_history`` and, of a correction,
    ``reason``. The time is that of coming in for a boat that is in, else that of the word; blank means now, and
    in a correction the time as it was. Raises Faults with those names.
    """
    texts = {name: text for name, text in said.items() if name != "time"}
    inside = texts.get("whereabouts") in IN
    written = said.get("time", "").strip()
    kept = CheckIn.objects.filter(pk=id, event=event).first()
    asked = old or kept
    if not written and asked is not None:
        moment = (asked.checked_in if inside else asked.told_at) or asked.told_at or asked.checked_in
    else:
        moment = None
    if not written and old is not None and inside and old.minutes_late is not None:
        texts["minutes_late"] = str(old.minutes_late)
    else:
        shown = (moment or timezone.now().replace(microsecond=0)).isoformat()
        texts["checked_in" if inside else "told_at"] = written or shown
    if not texts.get("whereabouts"):
        raise Faults([NO_WHEREABOUTS.at("whereabouts")])
    try:
        return record_check_in(event, {"boat": str(boat), "day": str(day), **texts}, by, id, old)
    except Faults as found:
        moved = {"checked_in": "time", "told_at": "time", "minutes_late": "time"}
        raise Faults(replace(f, field=moved.get(f.field, f.field)) for f in found.faults) from None


def launch(event: Event, day: int, flight: str, by: str, official: str) -> list[int]:
    """Note for every boat of a flight of which there is no word that it launched now; the boats. Raises Faults."""
    with writing():
        context = EVENT.open(event.pk)
        found = next((one for one in roll_of(context.event, day).flights if one.name == flight), None)
        boats = [boat.entry.boat for boat in found.unheard] if found else []
        moment = timezone.now().replace(microsecond=0).isoformat()
        for boat in boats:
            said = {
                "boat": str(boat), "day": str(day), "whereabouts": Where.LAUNCHED, "told_at": moment, "official": official,
            }  # fmt: skip
            record_check_in(event, said, by, uuid.uuid4())
        return boats


def record_tow(event: Event, day: int, said: Mapping[str, str], by: str, id: uuid.UUID) -> list[CheckIn]:
    """One boat towed another in: who is excused how many minutes, and why; the lines that say so.

    ``said`` holds ``towing``, ``towed``, ``excuse`` (towing, towed, both), ``minutes``, ``reason`` and ``official``. The
    line with a boat's time is corrected; a boat that is not in yet gets a line that waits for it. The minutes take
    the place of any excused before. Raises Faults with those names.
    """
    with writing():
        context = EVENT.open(event.pk)
        boats, minutes, excused = _read_tow(context, said)
        reason = said["reason"].strip()
        told = f"boat {boats['towing']} towed boat {boats['towed']} in: {reason}"
        keys = {who: uuid.uuid5(id, who) for who in excused}
        again = CheckIn.objects.filter(pk__in=keys.values()).exists()
        lines = [_excuse(context, day, boats[who], minutes, told, said, by, key) for who, key in keys.items()]
        named = " and ".join(f"boat {boats[who]}" for who in excused)
        if not again:
            log_history(
                by,
                "checkin.tow",
                f"Boat {boats['towing']} towed boat {boats['towed']} in, day {day}: {named} excused {minutes} minutes: {reason}",
                club_id=context.club_id,
                event_id=event.pk,
                subject=f"boat {boats['towing']}",
                details={"day": day, "towing": boats["towing"], "towed": boats["towed"], "minutes": minutes},
            )
        return lines


def _read_tow(context: EventContext, said: Mapping[str, str]) -> tuple[dict[str, int], str, tuple[str, ...]]:
    faults, boats = [], {}
    for name in ("towing", "towed"):
        try:
            boats[name] = values.whole(said.get(name, ""), least=1, most=2_000_000_000)
        except Wrong as error:
            faults.append(error.at(name) if said.get(name, "").strip() else TOWED_BOAT_MISSING.at(name))
            continue
        if boats[name] not in context.entries:
            faults.append(NO_SUCH_BOAT_TO_TOW.at(name, boat=boats[name]))
    if not faults and boats["towing"] == boats["towed"]:
        faults.append(TOWS_ITSELF.at("towed"))
    excused = EXCUSED.get(said.get("excuse", ""), ())
    if not excused:
        faults.append(NOBODY_EXCUSED.at("excuse"))
    minutes = said.get("minutes", "").strip()
    try:
        if values.decimal(minutes, most=MOST_EXCUSED) <= 0 or len(minutes) > 40:
            raise NO_MINUTES_EXCUSED.wrong()
    except Wrong as error:
        faults.append(error.at("minutes"))
    try:
        if not values.lines(said.get("reason", ""), 400).strip():
            raise EXCUSE_WITHOUT_REASON.wrong()
    except Wrong as error:
        faults.append(error.at("reason"))
    if faults:
        raise Faults(faults)
    return boats, minutes, excused


def _excuse(
    context: EventContext,
    day: int,
    boat: int,
    minutes: str,
    reason: str,
    said: Mapping[str, str],
    by: str,
    id: uuid.UUID,
) -> CheckIn:
    found = boat_on_roll(context.event, day, boat)
    if found is None:
        raise Faults([NO_SUCH_DAY_ON_ROLL.at("towing", day=day)])
    new = {"boat": str(boat), "day": str(day), "excused_minutes": minutes, "official": said.get("official", "")}
    kept = CheckIn.objects.filter(pk=id).select_related("replaces").first()
    old = kept.replaces if kept else next(iter(found.times), None)
    if old is None:
        return record_check_in(context.event, {**new, "note": reason}, by, id)
    if old.minutes_late is not None:
        raise Faults([MINUTES_LATE_ON_LINE.at("minutes", boat=boat, minutes=old.minutes_late)])
    stays = {
        "whereabouts": old.whereabouts, "word": old.word, "note": old.note,
        "checked_in": old.checked_in.isoformat() if old.checked_in else "",
        "told_at": old.told_at.isoformat() if old.told_at else "",
    }  # fmt: skip
    return record_check_in(context.event, {**stays, **new, "reason": reason}, by, id, old)
