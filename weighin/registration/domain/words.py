"""A team in words."""

from django.utils.translation import gettext

from weighin.roster.models import Entry


def called(entry: Entry) -> str:
    """Its boat and name; the name alone while it waits for a number."""
    if entry.waits:
        return entry.name
    return gettext("Boat %(boat)s, %(team)s") % {"boat": entry.boat, "team": entry.name}
