"""A row of the ledger, put together in one piece: a page of 300 teams has too many cells for one tag each."""

from collections.abc import Sequence

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext

from weighin.audit.domain import reading_out
from weighin.standings.tables import StandingRow
from weighin.ui.templatetags.ui import money, taken_off, weight

register = template.Library()

ROW = (
    '<tr role="row" id="boat-{boat}"><td role="cell" class="place">{place}</td><td role="cell" class="boat">{boat}</td>'
    '<th role="rowheader" scope="row" class="team">{team}{notes}</th><td role="cell" class="fish">{fish}</td>'
    '{days}<td role="cell" class="num weighed">{weighed}</td><td role="cell" class="taken-off">{off} {why}</td>'
    '<td role="cell" class="total">{total}</td><td role="cell" class="num big-fish">{big_fish}</td>{prize}</tr>'
)
WHY = '<a class="why" href="?why={}#boat-{}" data-why="{}" data-lines="{}" aria-expanded="{}">{}</a>'


@register.filter
def read_out(link: str) -> str:
    """The end of a chain in the figures that people read out."""
    return reading_out.read_out(link)


@register.simple_tag
def ledger_row(
    row: StandingRow, unit: str, lines_at: str, days: Sequence[int] = (), with_prize: bool = True
) -> SafeString:
    """``{% ledger_row row unit lines_at days with_prize %}``: a team's row; ``lines_at`` is the address of boat 0's lines.

    A boat that is not weighed has no weights: blank, never 0.00.
    """
    opened, boat = bool(row.lines), str(row.boat)
    way = (
        boat,
        boat,
        boat,
        lines_at.replace("/0/", f"/{boat}/"),
        str(opened).lower(),
        gettext("close") if opened else gettext("why"),
    )
    return format_html(
        ROW,
        boat=boat,
        place=_place(row),
        team=row.team,
        notes=_notes(row, unit, days),
        fish=_fish(row),
        days=format_html_join("", '<td role="cell" class="num day">{}</td>', ((w,) for w in _days(row, unit, days))),
        weighed=weight(row.weighed, unit) if row.has_slip else "",
        off=_taken_off(row, unit),
        why=format_html(WHY, *way) if row.has_slip else "",
        total=weight(row.total, unit) if row.has_slip else "",
        big_fish=weight(row.big_fish, unit),
        prize=format_html('<td role="cell" class="num optional">{}</td>', _prize(row)) if with_prize else "",
    )


def _fish(row: StandingRow) -> SafeString | str:
    if not row.has_slip:
        return ""
    return format_html('{}, <span class="quiet">{}</span>', row.fish, row.fish_note) if row.fish_note else str(row.fish)


def _days(row: StandingRow, unit: str, days: Sequence[int]) -> list[str]:
    """The total of each day, blank where it has no slip."""
    return [weight(total, unit) if day in row.days_weighed else "" for day, total in zip(days, row.days, strict=False)]


def _place(row: StandingRow) -> SafeString | str:
    if row.place is None:
        return format_html('<span class="label">{}</span>', row.status)
    return format_html('{}<span class="label">{}</span>', row.place, gettext("tied")) if row.tied else str(row.place)


def _notes(row: StandingRow, unit: str, days: Sequence[int]) -> SafeString | str:
    missed = gettext("Missed the cut.") if row.made_cut is False and row.place else ""
    words = " ".join(filter(None, (row.level, missed)))
    by_day = ", ".join(
        gettext("day %(day)s %(weight)s") % {"day": day, "weight": w}
        for day, w in zip(days, _days(row, unit, days), strict=True)
        if w
    )
    day_line = format_html('<span class="small by-day">{}</span>', by_day) if by_day else ""
    return format_html('{}<span class="small">{}</span>', day_line, words) if words else day_line


def _taken_off(row: StandingRow, unit: str) -> SafeString | str:
    off: SafeString | str = taken_off(row.penalty, unit) if row.penalty else ""
    if row.lost_said:
        lost = format_html('<span class="label">{} {}</span>', taken_off(row.lost, unit), row.lost_said)
        off = format_html("{} {}", off, lost) if off else lost
    if not off and not row.bonus and row.has_slip:
        off = format_html('<span class="for-ears">{}</span>', gettext("nothing taken off"))
    return (
        format_html(
            '{}<span class="label">{}</span>', off, gettext("+ %(weight)s bonus") % {"weight": weight(row.bonus, unit)}
        )
        if row.bonus
        else off
    )


def _prize(row: StandingRow) -> SafeString | str:
    """The place's prize; beside it, apart, what the big fish pot pays."""
    place = money(row.payout) if row.payout else ""
    if row.unpaid:
        return format_html('<span class="label">{}</span>', gettext("not paid in"))
    return (
        format_html(
            '{}<br><span class="label">{}</span>', place, gettext("+ %(amount)s big fish") % {"amount": money(row.pot)}
        )
        if row.pot
        else place
    )
