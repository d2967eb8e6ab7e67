"""The line on every page of an event that is cancelled or postponed."""

from django import template
from django.template import Context
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import get_language

from weighin.events.models import Event
from weighin.schedule.queries.notices import told_of
from weighin.ui.kept import KEEPER, State

register = template.Library()
LINE_BYTES = 500  # about


@register.simple_tag(takes_context=True)
def notice_line(context: Context, bare: bool = False) -> SafeString | str:
    """``{% notice_line %}``: what the teams were told of the page's ``event``; empty while it simply takes place.

    ``bare`` is for pages that are no book.
    """
    event = context.get("event")
    if not isinstance(event, Event) or event.pk is None:
        return ""
    state = State((event.revision,))
    key = ("notice", get_language(), event.pk)
    found: str = KEEPER.shown(key, lambda: state, lambda: told_of(event), LINE_BYTES)
    if not found:
        return ""
    line = format_html('<p class="heed"><b>{}</b></p>', found)
    return (
        line
        if bare
        else format_html('<div class="entry notice"><div class="margin"></div><div class="page">{}</div></div>', line)
    )
