"""A row of the ledger, put together in one piece: a page of 300 teams has too many cells for one tag each."""

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from weighin.standings.tables import StandingRow
from weighin.ui.templatetags.ui import money, taken_off, weight

register = template.Library()

ROW = (
    '<tr role="row" id="boat-{boat}"><td role="cell" class="place">{place}</td><td role="cell" class="boat">{boat}</td>'
    '<th role="rowheader" scope="row" class="team">{team}{notes}</th><td role="cell" class="fish">{fish}</td>'
    '<td role="cell" class="num weighed">{weighed}</td><td role="cell" class="taken-off">{off} '
    '<a class="why" href="?why={boat}#boat-{boat}" data-why="{boat}" data-lines="{lines_at}" aria-expanded="{open}">{way}</a></td>'
    '<td role="cell" class="total">{total}</td><td role="cell" class="num big-fish">{big_fish}</td>'
    '<td role="cell" class="num optional">{prize}</td></tr>'
)
NOTHING = mark_safe('<span class="for-ears">nothing taken off</span>')


@register.simple_tag
def ledger_row(row: StandingRow, unit: str, lines_at: str) -> SafeString:
    """``{% ledger_row row unit lines_at %}``: a team's row; ``lines_at`` is the address of boat 0's lines."""
    opened = bool(row.lines)
    return format_html(
        ROW,
        boat=str(row.boat),
        place=_place(row),
        team=row.team,
        notes=_notes(row),
        fish=format_html('{}, <span class="quiet">{}</span>', row.fish, row.fish_note) if row.fish_note else row.fish,
        weighed=weight(row.weighed, unit),
        off=_taken_off(row, unit),
        lines_at=lines_at.replace("/0/", f"/{row.boat}/"),
        open="true" if opened else "false",
        way="close" if opened else "why",
        total=weight(row.total, unit),
        big_fish=weight(row.big_fish, unit),
        prize=_prize(row),
    )


def _place(row: StandingRow) -> SafeString | str:
    if row.place is None:
        return format_html('<span class="label">{}</span>', row.status)
    return format_html('{}<span class="label">tied</span>', row.place) if row.tied else str(row.place)


def _notes(row: StandingRow) -> SafeString | str:
    missed = "Missed the cut." if row.made_cut is False and row.place else ""
    words = " ".join(filter(None, (row.level, missed)))
    return format_html('<span class="small">{}</span>', words) if words else ""


def _taken_off(row: StandingRow, unit: str) -> SafeString | str:
    off = taken_off(row.penalty, unit) if row.penalty else "" if row.bonus else NOTHING
    return format_html('{}<span class="label">+ {} bonus</span>', off, weight(row.bonus, unit)) if row.bonus else off


def _prize(row: StandingRow) -> SafeString | str:
    """The place's prize; beside it, apart, what the big fish pot pays."""
    place = money(row.payout) if row.payout else ""
    if row.unpaid:
        return mark_safe('<span class="label">not paid in</span>')
    return format_html('{}<br><span class="label">+ {} big fish</span>', place, money(row.pot)) if row.pot else place
