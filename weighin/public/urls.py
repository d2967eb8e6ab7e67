from django.urls import path, register_converter
from django.urls.converters import SlugConverter

from weighin.clubs.services.clubs import RESERVED
from weighin.public.views import catalogue, club, events, help, paper, proof, screen


class ClubSlug(SlugConverter):
    """The address of a club, which is none of the pages beside the clubs."""

    regex = f"(?!(?:{'|'.join(sorted(RESERVED))})/){SlugConverter.regex}"


class SeasonSlug(SlugConverter):
    """The address of a season, which is not the form that makes one."""

    regex = f"(?!new/){SlugConverter.regex}"


register_converter(ClubSlug, "club")
register_converter(SeasonSlug, "season")
app_name = "public"
urlpatterns = [
    path("", events.home, name="home"),
    path("clubs/<club:club_slug>/", club.club, name="club"),
    path("help/words/", help.glossary, name="glossary"),
    path("help/first-event/", help.first_event, name="first_event"),
    path("help/programs/", help.programs, name="programs"),
    path("clubs/<club:club_slug>/first-event/", help.club_first_event, name="club_first_event"),
    path("clubs/<club:club_slug>/feed.json", club.feed, name="feed"),
    path("clubs/<club:club_slug>/seasons/<season:season_slug>/", club.season, name="season"),
    path("clubs/<club:club_slug>/calendar.ics", club.calendar, name="calendar"),
    path("results/<slug:event_slug>/", events.event, name="event"),
    path("results/<slug:event_slug>/standings.png", events.drawn, name="picture"),
    path("results/<slug:event_slug>/screen/", screen.screen, name="screen"),
    path("results/<slug:event_slug>/crowd/", screen.crowd, name="crowd"),
    path("results/<slug:event_slug>/standings/", events.standings, name="standings"),
    path("results/<slug:event_slug>/standings/why/<int:boat>/", events.why, name="why"),
    path("results/<slug:event_slug>/official/<int:version>/", events.result, name="result"),
    path("results/<slug:event_slug>/rules/", events.rules, name="rules"),
    path("results/<slug:event_slug>/fish/", events.fish, name="mortality"),
    path("results/<slug:event_slug>/draws/", events.draws, name="draws"),
    path("results/<slug:event_slug>/launch-sheet.pdf", events.launch_sheet, name="launch_sheet"),
    path("results/<slug:event_slug>/briefing/", events.briefing, name="briefing"),
    path("results/<slug:event_slug>/briefing.pdf", events.briefing_file, name="briefing_file"),
    path("results/<slug:event_slug>/check/", proof.check, name="check"),
    path("results/<slug:event_slug>/check.html", proof.check_to_save, name="check_to_save"),
    path("results/<slug:event_slug>/check.svg", proof.check_code, name="check_code"),
    path("check/check.js", proof.script, name="check_script"),
    path("events/<slug:event_slug>/poster/", paper.poster, name="poster"),
    path("events/<slug:event_slug>/certificates/", paper.certificates, name="certificates"),
    path("events/<slug:event_slug>/press/", paper.press, name="press"),
    path("text/<slug:language>.<slug:version>.js", catalogue.catalogue, name="catalogue"),
    path("api/openapi.json", events.openapi, name="openapi"),
    path("api/events/<slug:event_slug>", events.api_event, name="api_event"),
    path("api/events/<slug:event_slug>/proof", proof.api_proof, name="api_proof"),
]
