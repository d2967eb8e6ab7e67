"""Boat cards: a number to be read from the dock, the team, its times, three things to see to."""

from collections.abc import Sequence
from functools import partial

from django.utils.translation import gettext
from reportlab.lib.units import mm

from weighin.planning.pages.boat_cards import CHECKS, BoatCard
from weighin.reports.writers.leaves.small_paper import (
    QR,
    SMALLEST,
    Draws,
    Leaf,
    Paper,
    fitting,
    height_of,
    printed,
    text_width,
)
from weighin.reports.writers.pdf.document import composed
from weighin.reports.writers.pdf.fonts import STRONG, WORDS, register_fonts


def cards_pdf(title: str, cards: Sequence[BoatCard], paper: Paper) -> bytes:
    """A leaf a card. Raises ValueError without any."""
    register_fonts()
    return printed(title, paper, card_leaves(cards))


def card_leaves(cards: Sequence[BoatCard]) -> list[Draws]:
    """What draws each card on its leaf."""
    return [partial(_draw, card=card) for card in cards]


def _draw(leaf: Leaf, card: BoatCard) -> None:
    leaf.head(card.club, (card.where, card.when), gettext("Boat card"))
    boat = str(card.boat)
    big = 120.0
    while text_width(boat, big, STRONG) > leaf.width:
        big -= 2
    middle = (leaf.left + leaf.right) / 2
    leaf.y -= 98
    leaf.canvas.setFont(STRONG, big)
    leaf.canvas.drawCentredString(middle, leaf.y, boat)
    leaf.y -= 8
    size = fitting(card.team, leaf.width, WORDS, 19, 9, lines=2)
    tall = height_of(card.team, size, leaf.width, WORDS)
    if tall <= size * 1.3:
        leaf.y -= size
        leaf.canvas.setFont(WORDS, size)
        leaf.canvas.drawCentredString(middle, leaf.y, composed(card.team))
        leaf.y -= size * 0.4
    else:
        leaf.paragraph(card.team, size, WORDS)
    leaf.y -= 4
    _times(leaf, card)
    for words in CHECKS:
        leaf.y -= 13
        leaf.canvas.setLineWidth(0.8)
        leaf.canvas.rect(leaf.left, leaf.y - 2, 3.4 * mm, 3.4 * mm)
        leaf.line(str(words), 8.5, x=leaf.left + 6 * mm)
    leaf.qr(card.address)
    x = leaf.left + QR + 4 * mm
    leaf.y = leaf.bottom + QR
    leaf.paragraph(
        f"{card.says} " + gettext("The code opens the event’s page once it is published."),
        SMALLEST,
        x=x,
        width=leaf.right - x,
    )


def _times(leaf: Leaf, card: BoatCard) -> None:
    leaf.rule(0.9)
    top, wide = leaf.y, leaf.width / len(card.times)
    for at, (label, value) in enumerate(card.times):
        x = leaf.left + at * wide + (6 if at else 0)
        if at:
            leaf.canvas.setLineWidth(0.4)
            leaf.canvas.line(x - 6, top, x - 6, top - 32)
        leaf.y = top - 10
        leaf.line(label, SMALLEST, x=x)
        leaf.y = top - 28
        leaf.line(value, fitting(value, wide - 8, STRONG, 18), STRONG, x=x)
    leaf.y = top - 32
    leaf.rule(0.9)
