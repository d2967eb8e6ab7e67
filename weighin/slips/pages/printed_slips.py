"""What stands on a printed slip, in words and figures."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from django.db.models import Max, Min
from django.utils.translation import gettext, ngettext

from weighin.audit.domain.reading_out import read_out
from weighin.checkin.queries.arrivals import table_of
from weighin.events.domain.clock import clock
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.rules.weights import word
from weighin.slips.domain.explaining import scored
from weighin.slips.domain.fields import ON_THE_SCALE
from weighin.slips.domain.in_words import recorded
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import check_figures
from weighin.slips.queries.pads import papers_of
from weighin.slips.queries.slips import doubled, replaced_by
from weighin.ui import figures
from weighin.ui.nouns import recorder
from weighin.ui.templatetags.ui import weight


@dataclass(frozen=True)
class PrintedSlip:
    """A slip as the paper shows it. ``heed`` is what must be seen first; ``lines`` are words and figures."""

    number: int
    club: str
    where: str
    when: str
    boat: int
    team: str
    fish: tuple[str, ...]
    heed: str
    lines: tuple[tuple[str, str], ...]
    total: str
    unit: str
    big_fish: str
    readings: str
    official: str
    address: str
    check: str
    paper: str = ""
    proof: str = ""


def printed_slips(event: Event, slips: Iterable[WeighSlip], site: str) -> list[PrintedSlip]:
    """The slips as they are printed; ``site`` is the site's address, without a slash at its end.

    The slips come with entry, ``replaces`` and ``replaced_by``, each with whatever else is current for its boat and day.
    """
    table, found = table_of(event), list(slips)
    current = WeighSlip.objects.current().filter(event=event).select_related("entry")
    waiting = doubled(current)
    papers = papers_of(event, found)
    ends = _ends_of_days(event)
    return [
        replace(
            _printed(event, slip, table, (slip.entry.boat, slip.day) in waiting, site, papers.get(slip.pk, "")),
            proof=_proof(slip) if slip.position in ends else "",
        )
        for slip in found
    ]


def _ends_of_days(event: Event) -> set[int]:
    """The positions of the first and the last slip of each day, as far as slips are kept."""
    days = WeighSlip.objects.filter(event=event).order_by().values_list("day")
    return {one for _, *ends in days.annotate(Min("position"), Max("position")) for one in ends}


def _proof(slip: WeighSlip) -> str:
    said = {"n": slip.position, "figures": read_out(slip.link)}
    return (
        ngettext(
            "Proof of the slips up to this one: %(n)s slip, %(figures)s",
            "Proof of the slips up to this one: %(n)s slips, %(figures)s",
            slip.position,
        )
        % said
    )


def _printed(event: Event, slip: WeighSlip, table: Table, waiting: bool, site: str, paper: str) -> PrintedSlip:
    unit, calendar = event.weight_unit, table.calendar
    made = scored(slip, table)
    when = figures.day(calendar.days[slip.day].date)
    if len(calendar.days) > 1:
        when = gettext("%(date)s, day %(day)s") % {"date": when, "day": slip.day}
    when = (gettext("%(date)s, weighed %(time)s") if slip.weighed else gettext("%(date)s, saved %(time)s")) % {
        "date": when,
        "time": clock(slip.weighed or slip.received_at, calendar, slip.day),
    }
    readings = [f"{label} {value}" for label, value in recorded(slip, ON_THE_SCALE, calendar, unit)]
    return PrintedSlip(
        number=slip.number,
        club=str(event.club),
        where=f"{event.name}, {event.water.name}",
        when=when,
        boat=slip.entry.boat,
        team=slip.entry.name,
        fish=() if slip.void else _fish(slip),
        heed=_heed(slip, waiting),
        lines=tuple((line.words, line.figures) for line in made.lines) if made else (),
        total=weight(made.score.total, unit) if made else "",
        unit=word(unit),
        big_fish=made.big_fish if made else "",
        readings="" if slip.void else "; ".join(readings) or gettext("Nothing was put on the scale"),
        official=slip.official or recorder(slip.recorded_by),
        address=f"{site}/events/{event.slug}/slips/{slip.number}/",
        check=check_figures(slip.link),
        paper=paper,
    )


def _fish(slip: WeighSlip) -> tuple[str, ...]:
    return (
        gettext("%(fish)s fish") % {"fish": slip.fish},
        gettext("%(alive)s alive, %(dead)s dead") % {"alive": slip.alive, "dead": slip.dead},
        gettext("%(short)s short") % {"short": slip.short},
    )


def _heed(slip: WeighSlip, waiting: bool) -> str:
    after = replaced_by(slip)
    said = []
    if after is not None:
        done = (
            gettext("Does not count: voided by slip %(number)s.")
            if after.void
            else gettext("Does not count: replaced by slip %(number)s.")
        )
        said += [done % {"number": after.number}, after.reason]
    if slip.replaces is not None and slip.void:
        takes_out = gettext("Voids slip %(number)s: the boat has no weight from it.")
        said += [takes_out % {"number": slip.replaces.number}, slip.reason]
    elif slip.replaces is not None:
        replaces = gettext("Replaces slip %(number)s, so the angler signs again.")
        said += [replaces % {"number": slip.replaces.number}, slip.reason]
    if waiting and after is None and not slip.void:
        said.append(gettext("This boat has two slips for the day: neither counts until the director settles it."))
    return " ".join(said)
