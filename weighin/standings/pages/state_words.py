"""The state of a result in words: live, provisional with its time for protests, official. Counts only, no names."""

from zoneinfo import ZoneInfo

from django.utils.translation import gettext, ngettext

from weighin.standings.queries.protests import ResultState
from weighin.ui import figures


def state_said(state: ResultState, zone: ZoneInfo) -> str:
    """The state as every page says it, the public's too; empty while it is live and nobody protested.

    The page tells the end of the time for protests, and which side of it the page was made on; kept pages are of one
    minute, so that both hold.
    """
    said = [_posted(state, zone)] if state.posted is not None else []
    if state.open:
        said.append(ngettext("%(n)s protest is open.", "%(n)s protests are open.", state.open) % {"n": state.open})
    if state.ruled:
        said.append(
            ngettext("%(n)s protest is ruled on.", "%(n)s protests are ruled on.", state.ruled) % {"n": state.ruled}
        )
    return " ".join(said)


def until_said(state: ResultState, zone: ZoneInfo) -> str:
    """The few words that a big screen has room for; empty unless the time for protests runs."""
    if not state.takes_protests:
        return ""
    assert state.until is not None
    return gettext("protests until %(until)s") % {"until": figures.clock(state.until, zone)}


def _posted(state: ResultState, zone: ZoneInfo) -> str:
    assert state.posted is not None and state.until is not None
    if state.state == "official":
        return gettext("Official results, version %(version)s.") % {"version": state.version}
    said = {"posted": figures.moment(state.posted, zone), "until": figures.moment(state.until, zone)}
    if state.takes_protests:
        return gettext("Provisional results, posted %(posted)s. Protests in writing until %(until)s.") % said
    return gettext("Provisional results, posted %(posted)s. The time for protests ended %(until)s.") % said
