"""A season's standings as a PDF: teams and classes, then anglers."""

from zoneinfo import ZoneInfo

from django.utils import timezone
from django.utils.translation import gettext

from weighin.clubs.queries import clock_of
from weighin.reports.writers.pdf.document import WIDE_PAGE, WORDS_PAGE, PdfDocument
from weighin.seasons.pages.words import (
    big_fish_said,
    class_named,
    counting_said,
    headline,
    provisional_said,
    race_said,
    ties_said,
)
from weighin.seasons.queries.standings import SeasonStandings
from weighin.seasons.sheets.standings import big_fish_sheet, printed
from weighin.ui import figures

MOST_UPRIGHT = 8  # events, a column each, beside which names still have room on an upright page


def standings_pdf(found: SeasonStandings) -> bytes:
    """The lists with a column an event, dropped points in brackets."""
    season = found.season
    name = gettext("%(club)s, season %(season)s") % {"club": season.club.name, "season": season.name}
    if found.series is not None:
        name = gettext("%(name)s, %(series)s") % {"name": name, "series": found.series.name}
    title = gettext("Season standings: %(name)s") % {"name": name}
    printed_at = timezone.now().astimezone(ZoneInfo(clock_of(season.club)))
    document = PdfDocument(
        title=title,
        subject=name,
        foot=gettext("%(title)s; printed %(printed)s") % {"title": title, "printed": figures.zoned(printed_at)},
        like=page_like(found),
    )
    document.small(name)
    write_standings(document, found)
    return document.build()


def page_like(found: SeasonStandings) -> str:
    """What pages the lists want."""
    return WIDE_PAGE if len(found.events) > MOST_UPRIGHT else WORDS_PAGE


def write_standings(document: PdfDocument, found: SeasonStandings) -> None:
    """Who leads, how it is counted, and every list."""
    document.heading(headline(found), first=True)
    document.says(counting_said(found))
    for sentence in filter(None, (provisional_said(found), ties_said(found), race_said(found), big_fish_said(found))):
        document.text(sentence)
    if found.events:
        events = "; ".join(f"{figures.short_day(event.date)} {event.name}" for event in found.events)
        document.small(gettext("Points in parentheses are dropped. Events: %(events)s.") % {"events": events})
    lists = [(gettext("Teams"), gettext("Team"), found.teams)]
    lists += [(class_named(key), gettext("Team"), rows) for key, rows in found.classes.items()]
    lists += [(gettext("Anglers"), gettext("Angler"), found.anglers)]
    for heading, who, rows in (one for one in lists if one[2]):
        document.heading(heading)
        document.sheet(printed(found, heading, who, rows))


def write_big_fish(document: PdfDocument, found: SeasonStandings) -> None:
    """The largest fish of the season, or that there is none."""
    sheet = big_fish_sheet(found)
    if not sheet.rows:
        document.heading(gettext("No big fish yet."), first=True)
        return
    largest = [row[0] for row in sheet.rows if row[0] == sheet.rows[0][0]]
    said = gettext("Big fish of the year: %(weight)s lb.") % {"weight": largest[0]}
    document.heading(said if len(largest) > 1 else big_fish_said(found), first=True)
    document.sheet(sheet)
