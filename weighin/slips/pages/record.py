"""Everything the page of one slip shows."""

from dataclasses import dataclass

from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext

from weighin.checkin.queries.arrivals import table_of
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock
from weighin.events.models import Event
from weighin.scales.models import ScaleReading
from weighin.slips.domain import fields
from weighin.slips.domain.changes import Step, steps
from weighin.slips.domain.explaining import Scored, scored
from weighin.slips.domain.in_words import recorded
from weighin.slips.models import WeighSlip
from weighin.slips.pages.scale_doubts import mark_in_words
from weighin.slips.queries.ledger import check_figures
from weighin.slips.queries.pads import papers_of
from weighin.slips.queries.scale_doubts import doubts_of, readings_of
from weighin.slips.queries.slips import beside, history_of, ledger_head, replaced_by, state_in_words
from weighin.ui.nouns import recorder


@dataclass(frozen=True)
class Told:
    """A step of the slip's history: the slip, what it changed, and when and by whom it was kept, by which clock."""

    step: Step
    sentence: str


@dataclass(frozen=True)
class SlipRecord:
    """A slip in words and figures: its score, its values by part, its history, its place in the ledger."""

    slip: WeighSlip
    state: str
    scored: Scored | None
    rivals: tuple[WeighSlip, ...]
    after: WeighSlip | None
    counted: list[tuple[str, str]]
    on_the_scale: list[tuple[str, str]]
    times: list[tuple[str, str]]
    lateness: list[tuple[str, str]]
    at_release: list[tuple[str, str]]
    rulings: list[tuple[str, str]]
    kept: str
    check: str
    paper: str
    history: list[Told]
    doubt: str
    readings: list[ScaleReading]
    ledger_length: int
    ledger_head: str

    @property
    def is_current(self) -> bool:
        """Whether nothing replaces the slip and it is no void."""
        return self.after is None and not self.slip.void

    @property
    def rival_links(self) -> SafeString:
        """The other slips of the boat and day, each with the way to its page."""
        links = [
            format_html(
                '<a href="{}">{}</a>',
                reverse("slips:slip", args=(self.slip.event.slug, other.number)),
                gettext("slip %(number)s") % {"number": other.number},
            )
            for other in self.rivals
        ]
        return format_html_join(gettext(" and "), "{}", ((link,) for link in links))


def slip_record(event: Event, slip: WeighSlip) -> SlipRecord:
    """The record of one slip of the event."""
    table = table_of(event)
    calendar, unit = table.calendar, event.weight_unit
    current = not slip.void and replaced_by(slip) is None
    rivals = tuple(other for other in beside(slip) if other.pk != slip.pk) if current else ()
    length, head = ledger_head(event)
    chain = history_of(slip)
    papers = papers_of(event, chain)
    mark = doubts_of(event, [slip]).marks.get(slip.pk)

    def part(names: tuple[str, ...]) -> list[tuple[str, str]]:
        return [] if slip.void else list(recorded(slip, names, calendar, unit))

    return SlipRecord(
        slip=slip,
        state=state_in_words(slip, bool(rivals)),
        scored=scored(slip, table),
        rivals=rivals,
        after=replaced_by(slip),
        counted=part(fields.COUNTED),
        on_the_scale=part(fields.ON_THE_SCALE),
        times=part(fields.CLOCK),
        lateness=part(fields.LATENESS),
        at_release=part(fields.AT_RELEASE),
        rulings=part(fields.RULINGS),
        kept=clock(slip.received_at, calendar, slip.day),
        check=check_figures(slip.link),
        paper=papers.get(slip.pk, ""),
        history=[
            Told(step, kept_in_words(step.slip, calendar, papers.get(step.slip.pk, ""))) for step in steps(chain, table)
        ],
        doubt=mark_in_words(mark, unit) if mark else "",
        readings=readings_of(slip),
        ledger_length=length,
        ledger_head=head,
    )


def kept_in_words(slip: WeighSlip, calendar: Calendar, paper: str = "") -> str:
    """When the site had the slip, from whom and which ``paper``; the device's clock where it said another time."""
    here = clock(slip.received_at, calendar, slip.day)
    said = gettext("%(time)s, by %(by)s.") % {"time": here, "by": recorder(slip.recorded_by)}
    if paper:
        said = gettext("%(time)s, by %(by)s, from %(paper)s.") % {
            "time": here,
            "by": recorder(slip.recorded_by),
            "paper": paper,
        }
    if slip.sent_at is not None and clock(slip.sent_at, calendar, slip.day) != here:
        sent = clock(slip.sent_at, calendar, slip.day)
        said += " " + gettext("Sent at %(time)s by the device’s clock.") % {"time": sent}
    off = slip.clock_off
    if off is not None:
        minutes = f"{abs(off).total_seconds() / 60:.0f}"
        differs = gettext("That clock was %(minutes)s min behind the site’s.")
        if off.total_seconds() > 0:
            differs = gettext("That clock was %(minutes)s min ahead of the site’s.")
        said += " " + differs % {"minutes": minutes}
    return said
