"""Draws of an event: those that were made, the one that stands, and who would be in the next."""

from collections.abc import Iterable
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import QuerySet
from django.utils.translation import gettext

from weighin.audit.domain.lines import seal
from weighin.events.models import Event
from weighin.events.queries.seals import Seals
from weighin.records.domain.kinds import plain_moment
from weighin.registration.domain import draw_faults as faults
from weighin.registration.domain import places
from weighin.registration.domain.drawing import BOATS, CLOSING
from weighin.registration.models import Draw, DrawsShown
from weighin.roster.models import Entry
from weighin.rules.faults import Said
from weighin.ui import figures

DRAW = "draw"
SEALED = ("purpose", "way", "seed", "order", "were", "void", "reason")


def draws_of(event: Event) -> QuerySet[Draw]:
    """The draws of an event in the order in which they were made, voided ones too, with what voided them."""
    found: QuerySet[Draw] = (
        Draw.objects.filter(event=event, void=False).select_related("replaced_by").order_by("number")
    )
    return found


def standing_draw(event: Event, purpose: str) -> Draw | None:
    """The draw of a purpose that stands, or None."""
    draw: Draw | None = Draw.objects.current().filter(event=event, purpose=purpose).first()
    return draw


def everybody(event: Event) -> QuerySet[Entry]:
    """Every entry in the order of their numbers, those that wait for a boat number too."""
    return Entry.everyone.filter(event=event).order_by("number")


def drawn_from(event: Event, purpose: str) -> list[Entry]:
    """The teams that a draw would be among: those entered that have a place; for boat numbers those of them without one."""
    entries = everybody(event).filter(status=Entry.Status.ENTERED).exclude(pk__in=places.without_place(event))
    return list(entries.filter(boat=None) if purpose == BOATS else entries)


def flights_in_order(event: Event) -> list[str]:
    """The flights in the order in which the director set them up."""
    return list(dict.fromkeys(event.flights.order_by("pk").values_list("name", flat=True)))


def entries_closed(event: Event) -> Said | None:
    """Why nobody is entered or taken out any more; None while the entries are open."""
    rows: Any = Draw.objects.current().filter(event=event, purpose__in=CLOSING).order_by("number")
    draw: Draw | None = rows.first()
    if draw is None:
        return None
    at = draw.received_at.astimezone(ZoneInfo(event.time_zone))
    return faults.ENTRIES_CLOSED.says(number=draw.number, purpose=draw.get_purpose_display(), at=figures.moment(at))


def closed_events(events: Iterable[int]) -> frozenset[int]:
    """Those of many events (primary keys) whose entries are closed; one query."""
    rows: Any = Draw.objects.current().filter(event__in=list(events), purpose__in=CLOSING)
    return frozenset(rows.values_list("event_id", flat=True))


def are_shown(event: Event) -> bool:
    """Whether the public sees the draws."""
    last = DrawsShown.objects.filter(event=event).order_by("-id").first()
    return bool(last and last.shown)


def recipe_of(draw: Draw) -> str:
    """How anyone can make the draw again."""
    if draw.way == Draw.Way.PAYMENT:
        who = gettext(
            "In the order in which the entry fees were paid; teams without a payment last, in the order of entry."
        )
        return f"{who} {_gives(draw)}"
    first = min((row["entry"] for row in draw.order), default=1)
    return (
        gettext(
            "For each team take the text SEED|PURPOSE|ENTRY (here %(example)s), encode it in UTF-8, and work out its SHA-256 "
            "in lower-case hexadecimal. Put the teams into ascending order of it."
        )
        % {"example": f"{draw.seed}|{draw.purpose}|{first}"}
        + f" {_gives(draw)}"
    )


def _gives(draw: Draw) -> str:
    return {
        "boats": gettext("They get the free boat numbers, the lowest first."),
        "launch": gettext("They launch in this order."),
        "flights": gettext("They are dealt in turn to the flights, in the flights' order."),
        "lots": gettext("They get the lots 1, 2, 3 and so on; the lower lot goes first in a tie."),
    }[draw.purpose]


def as_json(draw: Draw) -> dict[str, Any]:
    """A draw as the command writes it."""
    void = getattr(draw, "replaced_by", None)
    return {
        "purpose": draw.purpose,
        "seed": draw.seed or None,
        "recipe": recipe_of(draw),
        "at": plain_moment(draw.received_at),
        "by": draw.recorded_by,
        "void": void.reason if void else None,
        "order": [{**row, "hash": row["hash"] or None} for row in draw.order],
    }


def draw_seals(event_id: int, numbers: Iterable[int] | None = None) -> Seals:
    """The seal of each draw as it is kept now, for the history; of all, or of these ``numbers``."""
    rows = Draw.objects.filter(event=event_id)
    if numbers is not None:
        rows = rows.filter(number__in=list(numbers))
    return {f"{DRAW} {row.number}": seal({name: getattr(row, name) for name in SEALED}) for row in rows}
