"""Draws in words and rows, for pages, paper and the command line."""

from collections.abc import Iterator

from django.utils.translation import gettext

from weighin.registration.models import Draw
from weighin.registration.queries.draws import recipe_of

HEADS = {
    "boats": lambda: gettext("Boat"),
    "launch": lambda: gettext("Launches"),
    "flights": lambda: gettext("Flight"),
    "lots": lambda: gettext("Lot"),
}


def head_of(draw: Draw) -> str:
    """What the results of a draw are called at the head of its table."""
    return HEADS[draw.purpose]()


def lines_of(draw: Draw) -> Iterator[str]:
    """A draw as lines of text: what it is, its seed and recipe, and a line for each team."""
    void = getattr(draw, "replaced_by", None)
    yield gettext("Draw %(number)s: %(purpose)s") % {"number": draw.number, "purpose": draw.get_purpose_display()}
    if void is not None:
        yield gettext("Voided: %(reason)s") % {"reason": void.reason}
    if draw.seed:
        yield gettext("Seed: %(seed)s") % {"seed": draw.seed}
    yield gettext("Recipe: %(recipe)s") % {"recipe": recipe_of(draw)}
    for row in draw.order:
        said = {**row, "head": head_of(draw)}
        yield (gettext("%(head)s %(result)s: entry %(entry)s, %(team)s  %(hash)s") % said).rstrip()
