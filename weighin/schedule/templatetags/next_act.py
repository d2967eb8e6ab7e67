"""The act that an event of a list wants next of the page's reader."""

from django import template
from django.template import Context

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import cans_in
from weighin.events.queries.events import Listed
from weighin.schedule.pages.next_act import Act
from weighin.schedule.pages.next_act import next_act as act_of

register = template.Library()


@register.simple_tag(takes_context=True)
def next_act(context: Context, listed: Listed) -> Act | None:
    """``{% next_act row as act %}``: the words and the address; None where nothing is left to do."""
    cans = {Can(can) for can in cans_in(context["request"].user, listed.event.club)}
    return act_of(listed.event, listed.state, cans)
