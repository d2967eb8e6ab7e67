"""Blank numbered slips to hand out, for when the power or the tablets are gone."""

from functools import partial

from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event
from weighin.reports.writers.leaves.small_paper import SMALLEST, Draws, Leaf, Paper, printed, text_width
from weighin.reports.writers.pdf.fonts import FIGURES, STRONG, register_fonts
from weighin.rules.weights import word
from weighin.slips.models import PaperPad

ROWS = (
    (gettext_lazy("Boat"), gettext_lazy("Day")),
    (gettext_lazy("Team"),),
    (gettext_lazy("Checked in at"), gettext_lazy("Weighed at")),
    (gettext_lazy("Alive"), gettext_lazy("Dead"), gettext_lazy("Short")),
    (gettext_lazy("Weight on the scale"), gettext_lazy("Bag")),
    (gettext_lazy("Big fish"), gettext_lazy("alive or dead")),
    (gettext_lazy("Largest fish, if asked for"),),
    (gettext_lazy("Released, dead at release"),),
    (gettext_lazy("Note"),),
    (gettext_lazy("Angler"), gettext_lazy("Official")),
)


def pad_pdf(event: Event, pad: PaperPad, paper: Paper) -> bytes:
    """A slip for each number of the pad."""
    register_fonts()
    return printed(
        gettext("Paper slips %(pad)s of %(event)s, %(first)s to %(last)s")
        % {"pad": pad.name, "event": event.name, "first": pad.first, "last": pad.last},
        paper,
        pad_leaves(event, pad),
    )


def pad_leaves(event: Event, pad: PaperPad) -> list[Draws]:
    """What draws each numbered slip of a pad on its leaf."""
    return [partial(_draw, event=event, pad=pad, number=number) for number in range(pad.first, pad.last + 1)]


def _draw(leaf: Leaf, event: Event, pad: PaperPad, number: int) -> None:
    leaf.head(
        str(event.club),
        (
            f"{event.name}, {event.water.name}",
            gettext("Set %(name)s. Weights in %(weight_unit)s.")
            % {"name": pad.name, "weight_unit": word(event.weight_unit)},
        ),
        gettext("Paper slip"),
    )
    leaf.y -= 30
    leaf.line(str(number), 28, STRONG)
    leaf.line(gettext("Write the scale’s own figures."), SMALLEST, right=True)
    room = (leaf.y - leaf.bottom - 26) / len(ROWS)
    for row in ROWS:
        leaf.y -= room
        wide = leaf.width / len(row)
        for at, label in enumerate(map(str, row)):
            x = leaf.left + at * wide
            leaf.line(label, SMALLEST, x=x)
            leaf.canvas.setLineWidth(0.5)
            leaf.canvas.line(
                x + text_width(label, SMALLEST, FIGURES) + 4,
                leaf.y - 1,
                x + wide - (6 if at + 1 < len(row) else 0),
                leaf.y - 1,
            )
    leaf.y = leaf.bottom + 16
    leaf.paragraph(
        gettext(
            "Spoiled? Cross it out, write why, and hand it in all the same: every number is accounted for. Entered later, it "
            "keeps its number and its time."
        ),
        SMALLEST,
    )
