"""A season's mortality summary as a document for the meeting: the finding, its figures, caveats, and how it was done."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from django.utils import timezone
from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import KeepTogether, Paragraph

from weighin.advice.pages.advice import LAW_FIRST, Advice, advice
from weighin.advice.pages.season import PRACTICES_CAPTION, event_row, season_lines
from weighin.mortality.domain.words import listed, number
from weighin.mortality.pages import season_words
from weighin.mortality.pages.caveats import season_caveats
from weighin.mortality.pages.event_report import Line
from weighin.mortality.pages.figures import Figure, events_figure, practices_figure, season_strip, temperature_figure
from weighin.mortality.pages.methods import METHODS
from weighin.mortality.queries.days import CHOSEN, good_and_bad
from weighin.mortality.queries.practices import Compared, compared, comparisons_said, side_cells
from weighin.mortality.queries.season import SeasonMortality
from weighin.reports.domain.sheet import Sheet, SheetColumn
from weighin.reports.writers.pdf.chart import ChartFlowable
from weighin.reports.writers.pdf.document import SMALL, TEXT, PdfDocument, escaped
from weighin.reports.writers.pdf.fonts import STRONG
from weighin.ui import figures

STRIP, ACROSS = 640.0, 760.0  # CSS pixels the charts are drawn for before they are scaled to the paper


def season_pdf(found: SeasonMortality) -> bytes:
    """The summary of a season, with or without fish."""
    season, club = found.season, found.season.club
    printed = timezone.localtime()
    document = PdfDocument(
        title=gettext("Mortality, %(club)s, season %(season)s") % {"club": club.name, "season": season.name},
        subject=gettext("Release mortality of a season’s tournaments"),
        foot=gettext("%(club)s, season %(season)s: mortality; printed %(printed)s")
        % {"club": club.name, "season": season.name, "printed": figures.day(printed)},
    )
    document.small(gettext("%(club)s, season %(season)s: mortality") % {"club": club.name, "season": season.name})
    write_finding(document, found)
    write_events(document, found)
    write_practices(document, found, compared(found))
    write_rates(document, found)
    return document.build()


def write_finding(document: PdfDocument, found: SeasonMortality) -> None:
    """The season's rate with its range, or that there is none."""
    document.heading(season_words.title(found), first=True)
    if found.headline is None:
        document.says(
            gettext("No event of the season has a slip with fish yet, so there is no rate to give and none is made up.")
        )
        return
    with together(document):
        document.says(season_words.says(found))
        caption = gettext("The dot is the rate seen, the bar its 95 % range.")
        draw(document, season_strip(found), STRIP, f"{caption} {season_words.range_explained(found)}")
        document.text(season_words.stop_said(found))


def write_events(document: PdfDocument, found: SeasonMortality) -> None:
    """The events with their temperatures, and what stood beside the lowest and the highest rates; nothing without fish."""
    if found.headline is None:
        return
    with together(document):
        _warmth(document, found)
    _events(document, found)
    _good_and_bad(document, found)


def write_practices(document: PdfDocument, found: SeasonMortality, practices: Sequence[Compared]) -> None:
    """The practices compared, and what the figures speak for; nothing without fish."""
    if found.headline is None:
        return
    _practices(document, practices)
    _advice(document, advice(found, practices))


def write_rates(document: PdfDocument, found: SeasonMortality) -> None:
    """Each rate with its fish, what died later, what was not recorded, caveats and methods."""
    if found.headline is not None:
        with together(document):
            document.heading(gettext("Each rate, and the fish it is a share of"))
            document.sheet(rates_sheet(gettext("What happened"), season_lines(found)))
        with together(document):
            _later(document, found)
        _pairs(document, gettext("What was not recorded"), season_words.missing_said(found))
    caveats = season_caveats(len(found.fished), len(found.studies), found.species)
    _pairs(document, gettext("Caveats, in plain words"), caveats)
    _pairs(document, gettext("How it was worked out"), METHODS, SMALL)


def _warmth(document: PdfDocument, found: SeasonMortality) -> None:
    temperature_curve = found.temperature_curve
    figure = temperature_figure(temperature_curve, found.stop)
    if figure is None:
        return
    document.heading(temperature_curve.title)
    document.text(temperature_curve.said)
    at_stop = temperature_curve.at_stop(found.stop) if found.stop is not None else ""
    if at_stop:
        document.text(at_stop)
    caption = gettext(
        "Each dot is an event at its lake temperature (of several days their mean), the upright its 95 % range."
    )
    if temperature_curve.fit:
        caption += (
            " "
            + gettext(
                "The curve goes by fish, so that larger events weigh more; its shaded 95 % range counts each event as one."
            )
            + " "
            + temperature_curve.test_said
        )
    draw(document, figure, ACROSS, caption)


def _events(document: PdfDocument, found: SeasonMortality) -> None:
    caption = gettext(
        "Each dot is the share dead by release, the line its 95 % range allowing for whole livewells dying together; the highest rate first."
    )
    with together(document):
        document.heading(season_words.events_title(found))
        draw(document, events_figure(found), ACROSS, caption)
    rows = [event_row(line, found.unit) for line in found.worst_first]
    document.sheet(
        Sheet(
            title=gettext("Events"),
            columns=(
                SheetColumn(gettext("Event"), width=2.4),
                SheetColumn(gettext("Day"), width=1.5),
                SheetColumn(gettext("Water"), width=1.8),
                SheetColumn(gettext("Lake"), True, 1),
                SheetColumn(gettext("Livewells"), True, 1),
                SheetColumn(gettext("Dead of fish"), True, 1.2),
                SheetColumn(gettext("Rate"), True, 1.2),
                SheetColumn(gettext("95 % range"), True, 1.6),
            ),
            rows=[
                [
                    row["event"].name,
                    figures.short_day(row["event"].date),
                    row["event"].water.name,
                    row["lake"] or gettext("not recorded"),
                    row["livewells"],
                    row["count"],
                    row["rate"],
                    row["limits"],
                ]
                for row in rows
            ],
        )
    )


def _good_and_bad(document: PdfDocument, found: SeasonMortality) -> None:
    parted = good_and_bad(found)
    if parted is None:
        return
    with together(document):
        document.heading(gettext("What stood beside the lowest and the highest rates"))
        document.sheet(
            Sheet(
                title=gettext("Good and bad days"),
                columns=(
                    SheetColumn(gettext("Measured on the day"), width=2),
                    SheetColumn(gettext("%(best)s lowest") % {"best": number(len(parted.best)).capitalize()}, True, 1),
                    SheetColumn(gettext("of which"), width=2.2),
                    SheetColumn(
                        gettext("%(worst)s highest") % {"worst": number(len(parted.worst)).capitalize()}, True, 1
                    ),
                    SheetColumn(gettext("of which"), width=2.2),
                ),
                rows=[[row.name, *row.best, *row.worst] for row in parted.rows],
                after=(
                    gettext(
                        "Lowest: %(lowest)s. Highest: %(highest)s. Figures go by fish or boat-days; ranges are 95 %% and count each event as one."
                    )
                    % {
                        "lowest": listed([line.event.name for line in parted.best]),
                        "highest": listed([line.event.name for line in parted.worst]),
                    },
                ),
            )
        )
        document.text(gettext("These went together; none is shown to have made the other.") + " " + CHOSEN)


def _practices(document: PdfDocument, practices: Sequence[Compared]) -> None:
    if not practices:
        return
    document.heading(gettext("Care practices compared"))
    document.text(
        (
            gettext("%(comparisons_said)s Teams chose for themselves: this is an observation and no experiment.")
            % {"comparisons_said": comparisons_said(practices)}
        ).strip()
    )
    draw(document, practices_figure(practices), ACROSS, str(PRACTICES_CAPTION))
    for one in practices:
        with together(document):
            document.sheet(
                Sheet(
                    title=one.practice.name,
                    columns=(
                        SheetColumn(one.practice.name, width=0.8),
                        SheetColumn(capfirst(one.practice.practised), width=2),
                        SheetColumn(capfirst(one.practice.otherwise), width=2),
                    ),
                    rows=[
                        [gettext("%(days)s days") % {"days": side.days.capitalize()}, *side_cells(side)]
                        for side in one.sides
                    ],
                )
            )
            document.text(f"{one.said} {one.untold_said}".strip())
            document.space(4)


def _advice(document: PdfDocument, pieces: Sequence[Advice]) -> None:
    if not pieces:
        return
    document.heading(gettext("What the figures speak for"))
    for place, piece in enumerate(pieces, start=1):
        with together(document):
            _strong(document, f"{place}. {piece.act}", f"{piece.figure} {piece.expected}")
            document.small(piece.source)
    document.small(str(LAW_FIRST))


def _later(document: PdfDocument, found: SeasonMortality) -> None:
    document.heading(gettext("After release"))
    if not found.studies:
        document.text(
            gettext(
                "No event held fish back to see: what died after release is not known. That is not none, and nothing here stands in for it."
            )
        )
    for line in found.studies:
        document.text(season_words.study_said(line))


def rates_sheet(head: str, lines: list[Line]) -> Sheet:
    """Rates with their denominators as a table."""
    return Sheet(
        title=gettext("Rates"),
        columns=(
            SheetColumn(head, width=2),
            SheetColumn(gettext("Of which fish"), width=3),
            SheetColumn(gettext("Fish"), True, 1.2),
            SheetColumn(gettext("Rate"), True, 0.9),
            SheetColumn(gettext("95 % range"), True, 1.4),
        ),
        rows=[[line.name, line.of_which, line.count, line.rate, line.limits] for line in lines],
    )


def draw(document: PdfDocument, figure: Figure | None, width: float, caption: str) -> None:
    """A chart, drawn for so many CSS pixels and scaled to the paper, with its caption; nothing where there is none."""
    if figure is not None:
        document.parts.append(ChartFlowable(figure.at(width)))
        document.small(caption)


def _pairs(
    document: PdfDocument,
    heading: str,
    pairs: Sequence[tuple[str | Promise, str | Promise]],
    style: ParagraphStyle = TEXT,
) -> None:
    if pairs:
        document.heading(heading)
    for head, text in pairs:
        _strong(document, str(head), str(text), style)


def _strong(document: PdfDocument, head: str, text: str, style: ParagraphStyle = TEXT) -> None:
    """A paragraph that opens in bold."""
    strong = f'<font name="{STRONG}">{escaped(head)}</font>'
    document.parts.append(Paragraph(f"{strong} {escaped(text)}", style))


@contextmanager
def together(document: PdfDocument) -> Iterator[None]:
    """Keep what is added meanwhile on one page: a heading never stands apart from its chart."""
    start = len(document.parts)
    yield
    if document.parts[start:]:
        document.parts[start:] = [KeepTogether(document.parts[start:])]
