"""What the club's page says of names."""

from django.urls import reverse
from django.utils.translation import gettext, ngettext

from weighin.clubs.models import Club
from weighin.privacy.queries.decided import named_seasons, old_seasons, privacy_of


def names_to_erase(club: Club) -> list[tuple[str, str]]:
    """That a limit is to be decided once a club has names of two seasons, and that names are older than its limit."""
    decided = privacy_of(club)
    where = reverse("privacy:club", args=[club.slug])
    seasons = named_seasons(club)
    if not decided.decided:
        if sum(1 for one in seasons if one.names) < 2:
            return []
        return [(gettext("Decide how many seasons anglers' names are kept."), where)]
    names = sum(one.kept for one in old_seasons(seasons, decided.keep_seasons))
    if not names:
        return []
    said = ngettext(
        "%(n)s angler’s name or note is older than the club keeps it: erase it.",
        "%(n)s anglers' names and notes are older than the club keeps them: erase them.",
        names,
    )
    return [(said % {"n": names}, where)]
