"""A season's standings as a PDF: teams and classes, then anglers."""

from zoneinfo import ZoneInfo

from django.utils import timezone
from django.utils.translation import gettext

from weighin.clubs.queries import clock_of
from weighin.reports.writers.pdf.document import PdfDocument
from weighin.seasons.pages.words import big_fish_said, class_named, counting_said, headline, race_said, ties_said
from weighin.seasons.queries.standings import SeasonStandings
from weighin.seasons.sheets.standings import printed


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
        foot=gettext("%(title)s; printed %(printed)s") % {"title": title, "printed": f"{printed_at:%Y-%m-%d %H:%M}"},
    )
    document.small(name)
    document.heading(headline(found), first=True)
    document.says(counting_said(found))
    for sentence in filter(None, (ties_said(found), race_said(found), big_fish_said(found))):
        document.text(sentence)
    if found.events:
        events = "; ".join(f"{event.date:%m-%d} {event.name}" for event in found.events)
        document.small(gettext("Points in brackets are dropped. Events: %(events)s.") % {"events": events})
    lists = [(gettext("Teams"), gettext("Team"), found.teams)]
    lists += [(class_named(key), gettext("Team"), rows) for key, rows in found.classes.items() if rows]
    lists += [(gettext("Anglers"), gettext("Angler"), found.anglers)]
    for heading, who, rows in lists:
        document.heading(heading)
        document.sheet(printed(found, heading, who, rows))
    return document.build()
