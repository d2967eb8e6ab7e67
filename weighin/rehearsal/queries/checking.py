"""Whether nothing was lost: everything that was acknowledged against what is kept, the ledgers, and the standings."""

from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

from weighin.care.models import SentNote
from weighin.checkin.models import CheckIn
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.operations.queries.ledgers import ledger_of
from weighin.rehearsal.domain.deliveries import CHECK_INS, NOTES, SLIPS
from weighin.rehearsal.domain.faults import ALTERED, EVENT_CHANGED, LEDGER_BROKEN, LOST, STANDINGS_DIFFER
from weighin.roster.models import Entry
from weighin.roster.queries import reading_table
from weighin.rules.faults import Said
from weighin.rules.slips import Slip
from weighin.rules.tournament import DaySlip, Outcome, run
from weighin.rules.weights import read
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import SLIP
from weighin.standings.queries.standings import standings_of, team_of

MODELS: Mapping[str, Any] = {CHECK_INS: CheckIn, SLIPS: WeighSlip, NOTES: SentNote}
Items = Mapping[str, Mapping[str, Any]]  # by their ids


def lost(copy: Event, taken: Mapping[str, Items], words: Mapping[str, str]) -> list[Said]:
    """What was acknowledged and is not there, and slips that say otherwise than what was sent."""
    found = []
    for kind, items in taken.items():
        kept = {str(pk) for pk in MODELS[kind].objects.filter(event=copy).values_list("pk", flat=True)}
        found += [LOST.says(what=words[kind], boat=item["boat"]) for key, item in items.items() if key not in kept]
    table = reading_table(copy)
    for slip in WeighSlip.objects.filter(event=copy).select_related("entry"):
        sent = taken.get(SLIPS, {}).get(str(slip.pk))
        now = SLIP.as_sent(slip, table)
        for name, value in (sent or {}).items():
            if not _same(value, now[name]):
                found.append(ALTERED.says(boat=slip.entry.boat, field=name, sent=value, kept=now[name]))
    return found


def _same(sent: Any, kept: Any) -> bool:
    if sent == kept:
        return True
    try:
        return datetime.fromisoformat(sent) == datetime.fromisoformat(kept)
    except (TypeError, ValueError):
        return False


def broken(copy: Event, event: Event) -> list[Said]:
    """What does not hold in the ledgers of the rehearsal and of the event itself."""
    return [
        *(LEDGER_BROKEN.says(said=said) for said in ledger_of(copy).faults),
        *(EVENT_CHANGED.says(event=event.name, said=said) for said in ledger_of(event).faults),
    ]


def otherwise(copy: Event, taken: Mapping[str, Items]) -> list[Said]:
    """Boats that stand otherwise than what was sent comes to; empty where people have written in the rehearsal too."""
    slips, came = taken.get(SLIPS, {}), taken.get(CHECK_INS, {})
    own = {str(pk) for pk in WeighSlip.objects.filter(event=copy).values_list("pk", flat=True)} == set(slips)
    if not own or CheckIn.objects.filter(event=copy).exclude(pk__in=list(came)).exists():
        return []
    kept, sent = _places(standings_of(copy).outcome), _places(_worked_out(copy, slips.values(), came.values()))
    return [
        STANDINGS_DIFFER.says(boat=boat, kept=kept.get(boat, ""), sent=sent.get(boat, ""))
        for boat in sorted({*kept, *sent})
        if kept.get(boat) != sent.get(boat)
    ]


def _worked_out(copy: Event, slips: Iterable[Mapping[str, Any]], came: Iterable[Mapping[str, Any]]) -> Outcome:
    """The event worked out from the messages alone: neither a slip nor a check-in of the database is read."""
    rules, calendar = rules_of(copy), calendar_of(copy)
    entries = {entry.boat: entry for entry in Entry.objects.filter(event=copy)}
    at = {item["boat"]: datetime.fromisoformat(item["checked_in"]) for item in came}
    found = []
    for said in slips:
        boat = said["boat"]
        late = Fraction(0)
        if boat in at:
            since = at[boat].astimezone(UTC) - calendar.due(said["day"], entries[boat].flight_name).astimezone(UTC)
            late = max(late, Fraction(since.days * 86400 + since.seconds, 60))
        gross, big_fish = (read(said[name], rules.unit) if name in said else None for name in ("gross", "big_fish"))
        slip = Slip(
            fish=said["fish"],
            alive=said["alive"],
            dead=said["dead"],
            gross=gross,
            big_fish=big_fish,
            big_fish_alive=said.get("big_fish_alive"),
            minutes_late=late,
        )
        found.append(DaySlip(boat, said["day"], slip))
    teams = [team_of(entry) for entry in entries.values()]
    return run(rules, teams, found, calendar.fished, Decimal(copy.entry_fee), Decimal(copy.added_money), [])


def _places(outcome: Outcome) -> dict[int, str]:
    return {
        row.result.team.boat: f"{row.place or '-'}, {row.result.status}, {row.result.total}" for row in outcome.ranked
    }
