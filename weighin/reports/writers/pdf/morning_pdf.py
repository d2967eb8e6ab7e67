"""The morning's set: all paper of a day in one document, its pages numbered through."""

from collections.abc import Callable, Sequence
from functools import partial

from django.utils.translation import gettext, ngettext
from reportlab.lib.pagesizes import letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Paragraph

from weighin.events.models import Handling
from weighin.events.queries.events import rules_of, rules_said
from weighin.planning.pages.care_figures import Figure
from weighin.planning.pages.care_plan import CarePlanPage
from weighin.planning.pages.cautions import cautions_for
from weighin.planning.pages.morning import Morning
from weighin.registration.models import Draw
from weighin.registration.queries.draws import recipe_of
from weighin.reports.domain.sheet import Sheet, SheetColumn
from weighin.reports.sheets.morning import livewell_sheet, ramp_sheet
from weighin.reports.sheets.teams import sign_in_sheet
from weighin.reports.writers.leaves.boat_card_pdf import card_leaves
from weighin.reports.writers.leaves.pad_pdf import pad_leaves
from weighin.reports.writers.leaves.small_paper import Draws, Paper, draw_sheet, sheets
from weighin.reports.writers.pdf.document import INK, SMALL, TEXT, WHOLE_PAGE, PdfDocument, escaped
from weighin.reports.writers.pdf.fonts import STRONG
from weighin.rules.words.sheet import sheet_in_words
from weighin.ui import figures

FOOT = 14 * mm  # below the leaves, for the number of the page
LEAVES = Paper(letter[0] / 2, (letter[1] - FOOT) / 2, across=2)
TO_SIGN, TO_TICK = 11, 4
HEED = ParagraphStyle("heed", parent=TEXT, leftIndent=8, borderPadding=0, spaceAfter=5)
NAME = ParagraphStyle("name", parent=TEXT, fontSize=10, spaceBefore=6, spaceAfter=1, textColor=INK)
SOURCE = ParagraphStyle("source", parent=SMALL, leftIndent=8)

Part = Callable[[PdfDocument, Morning], None]


class Leaves(Flowable):  # type: ignore[misc]
    """A page of cards or slips to cut apart."""

    def __init__(self, leaves: Sequence[Draws]):
        super().__init__()
        self.leaves = leaves

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return width, height

    def draw(self) -> None:
        self.canv.saveState()
        self.canv.translate(0, FOOT)
        draw_sheet(self.canv, LEAVES, self.leaves)
        self.canv.restoreState()


def morning_pdf(morning: Morning, draw: Draw | None = None) -> bytes:
    """The set of a day, from the sign-in to the care plan; ``draw`` gave the launch order, and what is missing is named."""
    event, day = morning.event, morning.day
    of = {"event": event.name, "day": day.number}
    name = gettext("%(event)s, day %(day)s") % of if morning.several_days else event.name
    document = PdfDocument(
        title=gettext("The morning’s set of %(name)s") % {"name": name},
        subject=f"{event.club.name}, {event.water.name}, {figures.day(day.date)}",
        foot=gettext("%(name)s, %(date)s") % {"name": name, "date": figures.day(day.date)},
    )
    document.small(f"{event.club.name}. {event.water.name}, {figures.day(day.date)}.")
    document.heading(name, first=True)
    document.says(gettext("The morning’s set: print it, and put each part where its work is."))
    parts = _parts(morning, draw)
    document.sheet(
        Sheet(
            gettext("In this set"),
            (SheetColumn(gettext("Part"), width=1.4), SheetColumn(gettext("For"), width=3)),
            [(title, use) for title, use, _ in parts],
        )
    )
    document.space()
    for missing in _missing(morning):
        document.text(missing)
    _cautions(document, morning)
    for title, _, write in parts:
        if write in (_cards, _slips):
            write(document, morning)
        else:
            document.page()
            document.heading(f"{title}, {name}", first=True)
            write(document, morning)
    return document.build()


def _parts(morning: Morning, draw: Draw | None) -> list[tuple[str, str, Part]]:
    """What the set holds, in order: title, use, writer. Cautions stand on the first page."""
    boats: list[tuple[str, str, Part]] = [
        (gettext("Boat cards"), gettext("to cut apart, one for every boat"), _cards),
        (gettext("Launch order"), gettext("at the ramp: call, and write the time"), partial(_launch, draw=draw)),
        (gettext("Livewell checklist"), gettext("at the ramp: before a boat launches"), _livewells),
    ]
    sign_in = (gettext("Sign-in sheet"), gettext("at the desk: every angler signs"), _sign_in)
    return [
        *([sign_in] if morning.boats or morning.waiting else []),
        *(boats if morning.boats else []),
        *([(gettext("Blank slips"), gettext("at the scales: numbered, every one accounted for"), _slips)] if morning.pads else []),
        (gettext("Rules in words"), gettext("at the desk and the scales"), _rules),
        (gettext("Care plan"), gettext("for whoever runs tanks and line"), _care),
    ]  # fmt: skip


def _missing(morning: Morning) -> list[str]:
    said = []
    if not morning.boats:
        said.append(gettext("No team has a boat number yet: cards, launch order and livewell checklist are missing."))
    if morning.waiting:
        said.append(
            ngettext(
                "%(n)s team waits for its boat number: it has no card and no place in the launch order.",
                "%(n)s teams wait for their boat numbers: they have no card and no place in the launch order.",
                morning.waiting,
            )
            % {"n": morning.waiting}
        )
    if not morning.pads:
        said.append(gettext("No blank slips: add a set of paper slips for its numbers, then print again."))
    return said


def _cautions(document: PdfDocument, morning: Morning) -> None:
    document.heading(gettext("Cautions"))
    for bold, rest in cautions_for(morning.event.handling, rules_of(morning.event)):
        document.parts.append(_heed(bold, rest))


def _sign_in(document: PdfDocument, morning: Morning) -> None:
    document.text(gettext("Each angler signs. Write what you have seen."))
    document.sheet(sign_in_sheet(morning.event), room=TO_SIGN)


def _launch(document: PdfDocument, morning: Morning, draw: Draw | None) -> None:
    document.text(
        gettext("Write the time when a boat launches and when it is in. A weigh slip does not prove that a boat is in.")
    )
    document.sheet(ramp_sheet(morning.launching), room=TO_TICK)
    document.space(4)
    if draw is None:
        document.small(gettext("No launch order is drawn: boats stand by flight, then by number."))
        return
    if draw.seed:
        document.small(gettext("Drawn with the seed: %(seed)s") % {"seed": draw.seed})
    document.small(gettext("How anyone can check it: %(recipe)s") % {"recipe": recipe_of(draw)})


def _livewells(document: PdfDocument, morning: Morning) -> None:
    if morning.event.handling == Handling.HOLD_RELEASE:
        document.text(
            gettext("See it yourself: the pump without a break, no fish aboard. Water is the livewell’s temperature.")
        )
    document.sheet(livewell_sheet(morning.boats), room=TO_TICK)


def _cards(document: PdfDocument, morning: Morning) -> None:
    _leaves(document, card_leaves(morning.cards))


def _slips(document: PdfDocument, morning: Morning) -> None:
    _leaves(document, [leaf for pad in morning.pads for leaf in pad_leaves(morning.event, pad)])


def _leaves(document: PdfDocument, leaves: Sequence[Draws]) -> None:
    for sheet in sheets(LEAVES, leaves):
        document.page(WHOLE_PAGE)
        document.parts.append(Leaves(sheet))


def _rules(document: PdfDocument, morning: Morning) -> None:
    for section, sentences in sheet_in_words(rules_said(morning.event)):
        document.parts.append(
            KeepTogether([Paragraph(_strong(section), NAME), *(Paragraph(escaped(words), TEXT) for words in sentences)])
        )


def _care(document: PdfDocument, morning: Morning) -> None:
    plan = morning.care
    if plan is None:
        document.says(gettext("The care plan is not worked out. Open it on the site and write what is missing:"))
        for label, words in morning.care_faults:
            document.text(f"{label}: {words}")
        return
    document.says(plan.finding)
    for reason in plan.reasons:
        document.text(reason)
    for figure in plan.figures:
        document.parts.append(KeepTogether(_figure(figure)))
    _due(document, plan)


def _figure(figure: Figure) -> list[Flowable]:
    return [
        Paragraph(f"{escaped(figure.name)}: {_strong(figure.figure)}", NAME),
        Paragraph(escaped(figure.how), HEED),
        Paragraph(escaped(figure.source), SOURCE),
        *(_heed(bold, rest) for bold, rest in figure.cautions),
    ]


def _due(document: PdfDocument, plan: CarePlanPage) -> None:
    if not plan.due:
        return
    document.heading(gettext("When each flight would be due"))
    columns = (
        SheetColumn(gettext("Flight"), width=1),
        SheetColumn(gettext("Boats"), figures=True),
        SheetColumn(gettext("Due"), figures=True),
    )
    document.sheet(Sheet(gettext("Flights"), columns, [(str(one.flight), one.boats, one.due) for one in plan.due]))


def _heed(bold: str, rest: str) -> Paragraph:
    return Paragraph(f"{_strong(bold)} {escaped(rest)}", HEED)


def _strong(words: str) -> str:
    return f'<font name="{STRONG}">{escaped(words)}</font>'
