"""Blank numbered slips to hand out, for when the power or the tablets are gone."""

from functools import partial

from weighin.events.models import Event
from weighin.reports.pdf.fonts import FIGURES, STRONG, register_fonts
from weighin.reports.pdf.small_paper import SMALLEST, Leaf, Paper, printed, text_width
from weighin.rules.weights import word
from weighin.scale.models import PaperPad

ROWS = (
    ("Boat", "Day"),
    ("Team",),
    ("Checked in at", "Weighed at"),
    ("Alive", "Dead", "Short"),
    ("Weight on the scale", "Bag"),
    ("Big fish", "alive or dead"),
    ("Largest fish, if asked for",),
    ("Released, dead at release",),
    ("Note",),
    ("Angler", "Official"),
)


def pad_pdf(event: Event, pad: PaperPad, paper: Paper) -> bytes:
    """A slip for each number of the pad."""
    register_fonts()
    leaves = (partial(_draw, event=event, pad=pad, number=number) for number in range(pad.first, pad.last + 1))
    return printed(f"Pad {pad.name} of {event.name}, {pad.first} to {pad.last}", paper, leaves)


def _draw(leaf: Leaf, event: Event, pad: PaperPad, number: int) -> None:
    leaf.head(
        str(event.club),
        (f"{event.name}, {event.water.name}", f"Pad {pad.name}. Weights in {word(event.weight_unit)}."),
        "Paper slip",
    )
    leaf.y -= 30
    leaf.text(str(number), 28, STRONG)
    leaf.text("Write the scale’s own figures.", SMALLEST, right=True)
    room = (leaf.y - leaf.bottom - 26) / len(ROWS)
    for row in ROWS:
        leaf.y -= room
        wide = leaf.width / len(row)
        for at, label in enumerate(row):
            x = leaf.left + at * wide
            leaf.text(label, SMALLEST, x=x)
            leaf.canvas.setLineWidth(0.5)
            leaf.canvas.line(
                x + text_width(label, SMALLEST, FIGURES) + 4,
                leaf.y - 1,
                x + wide - (6 if at + 1 < len(row) else 0),
                leaf.y - 1,
            )
    leaf.y = leaf.bottom + 16
    leaf.words(
        "Spoiled? Cross it out, write why, and hand it in all the same: every number is accounted for. Entered later, it keeps its number and its time.",
        SMALLEST,
    )
