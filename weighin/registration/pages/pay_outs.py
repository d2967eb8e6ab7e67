"""The prizes of an event in rows: for the page, and for the list to read out and sign."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.utils.html import format_html
from django.utils.translation import gettext, ngettext

from weighin.events.models import Event
from weighin.registration.domain.cash import NONE
from weighin.registration.forms.money import due_named
from weighin.registration.models import PayeeNotice, PayOut
from weighin.registration.queries.cash_up import PLACE, CashUp, Due
from weighin.rules.faults import Together
from weighin.rules.look_alikes import folded_name
from weighin.ui import figures
from weighin.ui.places import Cell, Column, Places, Row, place_said


@dataclass(frozen=True)
class PrizeRow:
    """A prize with its team, what it is for, what became of it (paid, waits, or nothing yet), and its place in the list."""

    due: Due
    team: str
    what: str
    said: str
    place: Cell


def prize_rows(cash_up: CashUp) -> list[PrizeRow]:
    """Every prize that is due: of the places from the first, then of each pot."""
    places = {row.result.team.boat: row for row in cash_up.standings.outcome.ranked}
    paid = _paid(cash_up.till.event)
    found = []
    for due in cash_up.due:
        row = places[due.boat]
        what = due_named(due)
        place = place_said(None, what)
        if due.kind == PLACE:
            what = gettext("Place %(place)s, tied") if row.tied else gettext("Place %(place)s")
            what %= {"place": row.place}
            place = place_said(row.place, gettext("tied") if row.tied else "")
        found.append(PrizeRow(due, row.result.team.name, what, _said(due, paid), place))
    return found


def prize_places(rows: Sequence[PrizeRow]) -> Places:
    """The prizes as the page lists them: in the margin the place, or what else is won."""
    boat, paid, state = gettext("Boat"), gettext("Paid out"), gettext("State")
    columns = [Column("place", gettext("Place")), Column("boat", boat, boat), Column("team", gettext("Team"))]
    columns += [Column("num", paid, paid), Column("said", state, state), Column("total", gettext("Prize"))]
    cells: list[list[Cell]] = []
    for row in rows:
        due, said = row.due, format_html("<b>{}</b>" if row.due.waits and row.due.left > 0 else "{}", row.said)
        handed = figures.money(due.paid) if due.paid else ""
        cells.append([row.place, str(due.boat), row.team, handed, said if row.said else "", figures.money(due.amount)])
    return Places(gettext("Prizes"), columns, [Row(of) for of in cells], gettext("Nothing is due yet."), look="prizes")


def to_read_out(cash_up: CashUp) -> list[tuple[int | str, ...]]:
    """Boat, team, what for, amount and state in the order of reading out: the pots, then the places from the last up to
    the first, then what they come to. The state of a prize that is to be paid is blank: there it is signed for."""
    rows = prize_rows(cash_up)
    in_order = [row for row in rows if row.due.kind != PLACE]
    in_order += reversed([row for row in rows if row.due.kind == PLACE])
    found: list[tuple[int | str, ...]] = [
        (row.due.boat, row.team, row.what, figures.money(row.due.amount), row.said) for row in in_order
    ]
    total = sum((row.due.amount for row in rows), NONE)
    return [*found, ("", gettext("In all"), "", figures.money(total), "")] if found else []


def too_much_said(cash_up: CashUp) -> list[str]:
    """What was paid out above what is due by now, in words: to be got back."""
    entries = {e.boat: e.name for e in cash_up.till.entries.values()}
    return [
        gettext("Boat %(boat)s, %(team)s: %(amount)s too much for %(what)s.")
        % {
            "boat": due.boat,
            "team": entries[due.boat],
            "amount": figures.money(-due.left),
            "what": due_named(due),
        }
        for due in cash_up.too_much
    ]


def payee_limit(event: Event) -> Decimal | None:
    """The sum above which the club wants payees listed; None where it has said none."""
    said = PayeeNotice.objects.filter(club=event.season.club_id).order_by("-id").first()
    return said.above if said is not None else None


def payees_said(cash_up: CashUp) -> list[str]:
    """Teams whose prizes here, with what the club paid them out at its other events of the calendar year, are more than
    the club's sum; empty where it has set none. A team is the same by its name."""
    event = cash_up.till.event
    limit = payee_limit(event)
    if limit is None:
        return []
    names = {entry.boat: entry.name for entry in cash_up.till.entries.values()}
    sums: dict[str, Decimal] = {}
    for due in cash_up.due:
        team = names[due.boat]
        sums[team] = sums.get(team, NONE) + due.amount
    others = PayOut.objects.current().filter(
        event__season__club=event.season.club_id, event__date__year=event.date.year, event__rehearsal_of=None
    )
    earlier: dict[str, Decimal] = {}
    for name, amount in others.exclude(event=event).values_list("entry__name", "amount"):
        earlier[folded_name(name)] = earlier.get(folded_name(name), NONE) + amount
    found = [(sums[team] + earlier.get(folded_name(team), NONE), team) for team in sums]
    return [
        gettext("%(team)s: %(amount)s in %(year)s.")
        % {"team": team, "amount": figures.money(amount), "year": event.date.year}
        for amount, team in sorted(found, key=lambda one: (-one[0], one[1]))
        if amount > limit
    ]


def _paid(event: Event) -> dict[tuple[int, str, str], list[PayOut]]:
    found: dict[tuple[int, str, str], list[PayOut]] = {}
    for row in PayOut.objects.current().filter(event=event).select_related("entry").order_by("number"):
        found.setdefault((row.entry.boat, row.kind, row.pot), []).append(row)
    return found


def _said(due: Due, paid: dict[tuple[int, str, str], list[PayOut]]) -> str:
    rows = paid.get((due.boat, due.kind, due.pot), [])
    said = [
        gettext("paid, %(means)s, to %(who)s") % {"means": str(row.get_means_display()).lower(), "who": row.received_by}
        for row in rows
    ]
    if due.waits and due.left > 0:
        waits = ngettext("waits for protest %(protests)s", "waits for protests %(protests)s", len(due.waits))
        said.append(waits % {"protests": Together(due.waits).shown()})
    return "; ".join(said)
