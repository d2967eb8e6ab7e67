"""Where fish went: releases, walks for floaters and fish that did not go back, and how they stand to the slips."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.care.queries.care import deep_boats, signs_of_depth
from weighin.clubs.access import can_in
from weighin.events.access import allow
from weighin.events.models import Event, Handling
from weighin.events.queries.care_context import care_context_of
from weighin.planning.domain.species import fish_of
from weighin.tanks.pages.release_words import against_slips, headline, sites_said
from weighin.tanks.queries.releases import releases_of
from weighin.tanks.tables.releases import KeptTable, ReleasesTable, SitesTable, WalksTable
from weighin.tanks.views.releases import PER_PAGE


@require_safe
@allow(Can.VIEW_EVENT)
def releases(request: HttpRequest, event: Event) -> HttpResponse:
    """What became of the fish after the table, and how it stands to the slips."""
    care_context, found, depth = care_context_of(event), releases_of(event), signs_of_depth(event)
    may_record = can_in(request.user, event.club, Can.RECORD_CARE)
    may_write = may_record and not event.closed_at
    tables = {
        "table": ReleasesTable(found.releases, care_context, may_write),
        "walks": WalksTable(found.walks, care_context, may_record),
        "kept": KeptTable(found.kept, care_context, may_write),
    }
    for table in tables.values():
        RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(table)
    context = {
        "event": event,
        "scene": care_context,
        "rules": care_context.rules,
        "found": found,
        "headline": headline(found),
        "depth_fish": sum(depth),
        "depth_boats": len(depth),
        "deep": deep_boats(event, care_context.rules),
        "fish": fish_of(care_context.rules.species),
        "against": against_slips(found),
        "sites": SitesTable(found.sites, of_event=True, orderable=False),
        "places": sites_said(found.sites) if found.releases else "",
        "harvest": event.handling == Handling.HARVEST,
        "may_write": may_write,
        "may_record": may_record,
        **tables,
    }
    return render(request, "care/releases.html", context)
