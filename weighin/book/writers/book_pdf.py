"""The season book as one PDF: contents, then a chapter each for standings, big fish, mortality, care and catch."""

from zoneinfo import ZoneInfo

from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext

from weighin.agency.pages.layouts import LAYOUTS
from weighin.agency.writers.catch_pdf import write_catch
from weighin.book.queries.book import SeasonBook
from weighin.book.sheets.seasons import changes_said, printed_seasons
from weighin.clubs.queries import clock_of
from weighin.mortality.pages.figures import seasons_figure
from weighin.mortality.queries.trend import Trend
from weighin.reports.writers.pdf.chapters import ChapterDocument
from weighin.reports.writers.pdf.document import PdfDocument
from weighin.reports.writers.pdf.season_pdf import (
    ACROSS,
    draw,
    together,
    write_events,
    write_finding,
    write_practices,
    write_rates,
)
from weighin.seasons.writers.standings_pdf import page_like, write_big_fish, write_standings
from weighin.ui import figures
from weighin.ui.nouns import counted


def book_pdf(book: SeasonBook) -> bytes:
    """The book of a season, with or without events."""
    season, club = book.season, book.season.club
    title = gettext("Season book %(season)s, %(club)s") % {"season": season.name, "club": club.name}
    printed = timezone.now().astimezone(ZoneInfo(clock_of(club)))
    document = ChapterDocument(
        title=title,
        subject=gettext("Standings, big fish, mortality, care practices and catch of a season"),
        foot=gettext("%(title)s; printed %(printed)s") % {"title": title, "printed": figures.zoned(printed)},
    )
    document.small(club.name)
    document.heading(gettext("Season book %(season)s") % {"season": season.name}, first=True)
    document.says(_counts(book))
    document.small(gettext("It has the anglers’ names: it is for members."))
    document.space()
    document.contents()
    document.chapter(gettext("Standings"), page_like(book.standings))
    write_standings(document, book.standings)
    document.chapter(gettext("Big fish"))
    write_big_fish(document, book.standings)
    document.chapter(gettext("Mortality: fish that died"))
    write_finding(document, book.mortality)
    _write_change(document, book.seasons)
    write_events(document, book.mortality)
    write_rates(document, book.mortality)
    document.chapter(gettext("Care practices"))
    _write_care(document, book)
    document.chapter(gettext("Catch report"))
    if book.catch is None:
        document.heading(gettext("No catch to report yet."), first=True)
        document.text(gettext("The report is counted from weigh slips, and no event of the season has one."))
    else:
        write_catch(document, book.catch, LAYOUTS[0])
    return document.build()


def _counts(book: SeasonBook) -> str:
    """How many events are behind the book."""
    fished, to_come = len(book.standings.events), len(book.standings.to_come)
    if not fished:
        return gettext("No event of the season has a slip yet.")
    of = {"fished": counted(fished, "event"), "teams": counted(len(book.standings.teams), "team")}
    if not to_come:
        return gettext("%(fished)s, %(teams)s.") % of
    return gettext("%(fished)s fished, %(to_come)s to come; %(teams)s.") % {**of, "to_come": to_come}


def _write_change(document: PdfDocument, seasons: Trend) -> None:
    """What changed since the season before, among days alike too."""
    before = seasons.steps[-1].before.season.name if seasons.steps else gettext("the season before")
    with together(document):
        document.heading(gettext("What changed since %(before)s") % {"before": before})
        for sentence in changes_said(seasons):
            document.text(sentence)
    if seasons.steps:
        caption = gettext("Each dot is the share dead by release, the line its 95 % range counting each event as one.")
        with together(document):
            draw(document, seasons_figure(seasons), ACROSS, caption)
            document.sheet(printed_seasons(seasons))


def _write_care(document: PdfDocument, book: SeasonBook) -> None:
    clear = [one for one in book.practices if one.is_clear_alone and not one.loses_clarity]
    if not book.practices:
        document.heading(gettext("No care practice can be compared yet."), first=True)
        document.text(
            gettext(
                "That takes fish of boats with a practice and of boats without it, on days of about one temperature."
            )
        )
    elif clear:
        document.heading(
            capfirst("; ".join(f"{one.practice.practised}: {one.verdict.label}" for one in clear)) + ".", first=True
        )
    else:
        document.heading(gettext("No care practice shows a clear difference."), first=True)
    write_practices(document, book.mortality, book.practices)
