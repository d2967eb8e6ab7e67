"""What a club asks for, reserves and settles before an event, and how early: what a new checklist starts with.

Common practice, no source: agencies, parks and insurers each have rules and times of their own, which go first.
"""

from dataclasses import dataclass

from django.utils.translation import gettext_noop


@dataclass(frozen=True)
class Starting:
    """A line to start with, due ``days_before`` the event's first day."""

    what: str
    days_before: int
    note: str = ""


STARTING = (
    Starting(
        gettext_noop("Agency permit for the tournament"),
        60,
        gettext_noop(
            "Ask from how many boats, people or prize money it is needed, and what it says of culling, venting, tags and "
            "boats an acre."
        ),
    ),
    Starting(gettext_noop("Ramp, park or marina reservation"), 60),
    Starting(
        gettext_noop("Permission to hold, move and release live fish"),
        45,
        gettext_noop(
            "Where they may be released, and what to do with the dead. A dead fish may count to the daily limit."
        ),
    ),
    Starting(gettext_noop("Insurance"), 30),
    Starting(gettext_noop("Prizes and side pots: tax and gaming duties"), 30, gettext_noop("Ask someone qualified.")),
    Starting(
        gettext_noop("Products for tanks and livewells as labeled and permitted"),
        14,
        gettext_noop("No drug or anesthetic without the agency’s approval."),
    ),
    Starting(gettext_noop("Waivers, licenses and memberships: who checks them, and when"), 7),
    Starting(gettext_noop("Emergency plan: ambulance access, who is called for a missing boat, thunder"), 7),
    Starting(
        gettext_noop("Agency report after the event: what it asks for, and by when"),
        7,
        gettext_noop("Often within 7 to 30 days after the event. The catch report has the figures."),
    ),
)
