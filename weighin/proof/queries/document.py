"""The proof of an event's result: everything from which it can be worked out again, and the result."""

from typing import Any

from weighin.checkin.queries.arrivals import current_checkins
from weighin.events.domain.calendar import Calendar, write_clock
from weighin.events.models import Event
from weighin.proof.domain.canonical import FORMAT, digest_of
from weighin.proof.domain.figures import figures_of, minutes_of, time_of
from weighin.proof.queries.result import result_of
from weighin.registration.domain.cash import side_pot
from weighin.registration.queries.cash_up import split_pots
from weighin.registration.queries.till import Till, till_of
from weighin.rules.sheet.keys import KEYS
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import ledger_head, slips
from weighin.standings.queries.document import stands
from weighin.standings.queries.standings import Standings, official_results, standings_of


def proof_document(event: Event) -> dict[str, Any]:
    """``weighin-proof-1`` of the event as it is now; the same number of queries whatever its size.

    ``result.version`` is the newest official version while it says what the event says now, else null.
    """
    standings, till, ledger = standings_of(event), till_of(event), ledger_head(event)
    official = next(iter(official_results(event)), None)
    version = official.version if official is not None and stands(official, standings, ledger) else None
    proof = {
        "format": FORMAT,
        "event": _event_part(standings),
        "rules": _rules_part(standings),
        "flights": [
            {
                "flight": flight.name,
                "day": flight.day,
                "launch": flight.launch and write_clock(flight.launch),
                "due_time": write_clock(flight.due_time),
            }
            for flight in event.flights.order_by("pk")
        ],
        "side_pots": _pots_part(till),
        "teams": _teams_part(standings),
        "slips": _slips_part(standings),
        "checkins": _checkins_part(standings),
        "result": result_of(standings.outcome, split_pots(till, standings), version),
        "ledger": {"length": ledger[0], "head": ledger[1]},
    }
    return proof | {"digest": digest_of(proof)}


def slip_row(slip: WeighSlip, calendar: Calendar, unit: str) -> dict[str, Any]:
    """A slip, or a void, as a proof has it."""
    if slip.void:
        replaced = slip.replaces.number if slip.replaces else None
        return {"slip": slip.number, "day": slip.day, "boat": slip.entry.boat, "replaces": replaced, "void": True}
    return figures_of(slip, calendar, unit)


def _event_part(standings: Standings) -> dict[str, Any]:
    event = standings.event
    return {
        "slug": event.slug,
        "name": event.name,
        "weight_unit": event.weight_unit,
        "time_zone": event.time_zone,
        "start_time": write_clock(event.start_time),
        "due_time": write_clock(event.due_time),
        "days": [
            {
                "day": day.number,
                "date": day.date.isoformat(),
                "start_time": day.start_time and write_clock(day.start_time),
                "due_time": day.due_time and write_clock(day.due_time),
                "status": day.status,
            }
            for day in event.event_days.all()
        ],
        "entry_fee": f"{event.entry_fee:.2f}",
        "added_money": f"{event.added_money:.2f}",
        "big_fish_pot_fee": f"{standings.rules.big_fish_pot_fee:.2f}",
    }


def _rules_part(standings: Standings) -> dict[str, str | None]:
    written = standings.rules.written()
    return {
        key.name: None if key.optional and getattr(standings.rules, key.name) is None else written[key.name]
        for key in KEYS
    }


def _pots_part(till: Till) -> list[dict[str, Any]]:
    boats = {pk: entry.boat for pk, entry in till.entries.items() if not entry.waits}
    return [
        {
            "name": pot.name,
            "fee": f"{pot.fee:.2f}",
            "wins": str(pot.wins),
            "shares": ", ".join(format(share, "f") for share in pot.shares),
            "paid": sorted(boats[pk] for pk in till.cash.in_on[side_pot(pot.name)] if pk in boats),
        }
        for pot in till.pots
    ]


def _teams_part(standings: Standings) -> list[dict[str, Any]]:
    return [
        {
            "boat": boat,
            "team": entry.name,
            "youth": entry.youth,
            "status": str(entry.status),
            "paid": entry.paid,
            "big_fish_pot": entry.big_fish_pot,
            "lot": entry.lot,
            "flight": entry.flight_name or None,
        }
        for boat, entry in sorted(standings.entries.items())
    ]


def _slips_part(standings: Standings) -> list[dict[str, Any]]:
    """All current slips, every void, and with a cut those of the days up to it that were replaced: the first readings
    decide who fished on."""
    current = {slip.pk for slip in standings.current}
    cut = standings.rules.cut_after_day or 0
    return [
        slip_row(slip, standings.table.calendar, standings.rules.unit)
        for slip in slips(standings.event).order_by("number")
        if slip.void or slip.pk in current or slip.day <= cut
    ]


def _checkins_part(standings: Standings) -> list[dict[str, Any]]:
    """The check-ins that say something of lateness, in the order in which they were written."""
    return [
        {
            "day": line.day,
            "boat": line.entry.boat,
            "checked_in": time_of(line.day, line.checked_in, standings.table.calendar),
            "minutes_late": line.minutes_late,
            "excused_minutes": minutes_of(line.excused_minutes),
        }
        for line in current_checkins(standings.event)
        if line.checked_in is not None or line.minutes_late is not None or line.excused_minutes
    ]
