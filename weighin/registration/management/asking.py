"""What the commands about money have in common: the event they name, and a refusal in their own words."""

from collections.abc import Mapping

from django.core.management.base import CommandError
from django.utils.translation import gettext

from weighin.events.access import find
from weighin.events.models import Event
from weighin.rules.faults import Faults

BY = "command line"


def event_of(slug: str) -> Event:
    """The event of a slug. Raises CommandError."""
    event = find(slug)
    if event is None:
        raise CommandError(
            gettext("There is no event %(slug)s: the slug is the last part of its address.") % {"slug": slug}
        )
    return event


def refused(faults: Faults, names: Mapping[str, str]) -> CommandError:
    """Every fault at the name of what was given to the command."""
    return CommandError(
        "; ".join(f"{names[f.field]}: {f.message}" if f.field in names else f.message for f in faults.faults)
    )
