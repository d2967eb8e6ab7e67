"""Where a page lies: club, event and way in its head, and the row of ways with the page's own marked."""

from typing import Any

from django import template
from django.http import HttpRequest
from django.template import Context
from django.template.loader import get_template
from django.utils.safestring import SafeString
from django.utils.translation import gettext

from weighin.ui.ways import CLUB, EVENT, PUBLIC, SEASON, Ways, ways_at

register = template.Library()


@register.simple_tag(takes_context=True)
def event_ways(context: Context) -> SafeString:
    """``{% event_ways %}``: the row of the page's ``event``, for members."""
    return _row(context, "event", gettext("Event"))


@register.simple_tag(takes_context=True)
def club_ways(context: Context) -> SafeString:
    """``{% club_ways %}``: the row of the page's ``club``, those of its ``season`` first where the page has one."""
    return _row(context, "club", gettext("Club"))


@register.simple_tag(takes_context=True)
def public_ways(context: Context) -> SafeString:
    """``{% public_ways %}``: the row of a published ``event``, for everybody."""
    return _row(context, "public", gettext("Event"))


@register.simple_tag(takes_context=True)
def where_from(context: Context) -> SafeString | str:
    """``{% where_from %}``: what stands before the event in the head, its club; for everybody where the club is open."""
    kind, club = _kind(context), getattr(context.get("event"), "club", None)
    if kind == "event" or (kind == "public" and getattr(club, "is_open", False)):
        return _step("ui/where_from.html", club=club)
    return ""


@register.simple_tag(takes_context=True)
def where_on(context: Context) -> SafeString | str:
    """``{% where_on %}``: what stands behind it: the season of a club's page, and the way on which the page lies, but for
    the first page of an event or club."""
    kind = _kind(context)
    if not kind:
        return ""
    ways, first = _ways(context, kind), {"event": EVENT, "public": PUBLIC, "club": CLUB}[kind][0][1][0]
    season: Any = context.get("season")
    if kind != "club" or not hasattr(season, "slug"):
        season = None
    way = ways.current if ways.current is not None and ways.current.words != first.words else None
    return _step("ui/where_on.html", way=way, season=season, club=context.get("club")) if way or season else ""


def _step(template_name: str, **found: Any) -> SafeString:
    return SafeString(get_template(template_name).render(found))


def _kind(context: Context) -> str:
    request = context.get("request")
    path = request.path if isinstance(request, HttpRequest) else ""
    event: Any = context.get("event")
    club: Any = context.get("club")
    if getattr(event, "slug", ""):
        return (
            "event" if path.startswith(f"/events/{event.slug}/") else "public" if path.startswith("/results/") else ""
        )
    return "club" if getattr(club, "slug", "") and context.get("cans") and path.startswith("/clubs/") else ""


def _ways(context: Context, kind: str) -> Ways:
    """The ways of a page, worked out once."""
    request: Any = context.get("request")
    if request is None:
        return Ways(())
    known: dict[str, Ways] = request.__dict__.setdefault("ways_of_kind", {})
    if kind not in known:
        known[kind] = _worked_out(context, kind, request.path)
    return known[kind]


def _worked_out(context: Context, kind: str, path: str) -> Ways:
    cans: Any = context.get("cans", frozenset())
    if kind == "club":
        club: Any = context["club"]
        season: Any = context.get("season")
        of_club = ways_at(path, CLUB, [club.slug], cans)
        if not hasattr(season, "slug"):
            return of_club
        of_season = ways_at(path, SEASON, [club.slug, season.slug], cans)
        if of_season.current is None:
            return Ways(of_club.groups + of_season.groups)
        return Ways(of_season.groups + ways_at("", CLUB, [club.slug], cans).groups)
    event: Any = context["event"]
    if kind == "public":
        return ways_at(path, PUBLIC, [event.slug], cans)
    without = {"open"} if event.closed_at is not None else set()
    return ways_at(path, EVENT, [event.slug], cans, without | ({"real"} if event.rehearsal_of_id else set()))


def _row(context: Context, kind: str, label: str) -> SafeString:
    return _step("ui/ways.html", ways=_ways(context, kind), kind=kind, label=label)
