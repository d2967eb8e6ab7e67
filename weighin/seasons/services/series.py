"""Make, edit and remove a season's series."""

from collections.abc import Sequence
from dataclasses import replace

from weighin.audit.domain.changes import changes, in_words
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Season
from weighin.clubs.services.clubs import RESERVED, free_slug
from weighin.events.models import Event
from weighin.rules import rulebook
from weighin.rules.faults import Fault, Faults, Listed, Wrong
from weighin.rules.look_alikes import name_line
from weighin.seasons.domain.faults import (
    EVENT_NOT_OF_SEASON,
    EVENT_TWICE_IN_SERIES,
    SERIES_TAKEN,
    SERIES_WITHOUT_EVENTS,
    SERIES_WITHOUT_NAME,
)
from weighin.seasons.models import Series, SeriesEvent

LONGEST_NAME = 80


def series_named(season: Season, name: str) -> Series | None:
    """The season's series of this name or slug, whatever its case."""
    found = season.series
    return found.filter(slug=name).first() or found.filter(name__iexact=" ".join(name.split())).first()


def keep_series(
    season: Season, name: str, slugs: Sequence[str], count_best: str, ties: str, by: str, old: Series | None = None
) -> Series:
    """Make a series, or write ``old`` anew; blank ``count_best`` and ``ties`` are the season's.

    Raises Faults: ``name``, ``events``, ``count_best``, ``ties``.
    """
    with writing():
        Season.objects.select_for_update().get(pk=season.pk)
        called = " ".join(name.split())
        events = {event.slug: event for event in season.events.order_by("date", "pk")}
        terms, faults = _terms(count_best, ties)
        faults = [*_name_faults(season, name, called, old), *_event_faults(season, slugs, events), *faults]
        if faults:
            raise Faults(faults)
        row = old or Series(season=season, slug=_slug(season, called))
        before = {} if old is None else _said(old)
        row.name, row.count_best, row.ties = called, *terms
        row.save()
        wanted = {events[slug].pk for slug in slugs}
        there = set(row.parts.values_list("event", flat=True))
        row.parts.exclude(event__in=wanted).delete()
        SeriesEvent.objects.bulk_create([SeriesEvent(series=row, event_id=pk) for pk in sorted(wanted - there)])
        _note(season, row, before, by)
    return row


def remove_series(series: Series, by: str) -> None:
    """Remove a series; its events and their results stay."""
    with writing():
        said = _said(series)
        season = series.season
        series.delete()
        log_history(
            by, "series.removed", f"Series {said['name']} of {season} removed",
            club_id=season.club_id, subject=str(said["name"]), details={"before": said},
        )  # fmt: skip


def _terms(count_best: str, ties: str) -> tuple[tuple[str, str], list[Fault]]:
    written = {"count_best": count_best.strip(), "season_ties": ties.strip()}
    rules, wrong = rulebook.read_what_can_be({key: value for key, value in written.items() if value}, "lb")
    faults = [replace(fault, field="ties" if fault.field == "season_ties" else fault.field) for fault in wrong]
    read = rules.written()
    return (
        read["count_best"] if written["count_best"] else "",
        read["season_ties"] if written["season_ties"] else "",
    ), faults


def _name_faults(season: Season, name: str, called: str, old: Series | None) -> list[Fault]:
    try:
        if not name_line(name, LONGEST_NAME):
            return [SERIES_WITHOUT_NAME.at("name")]
    except Wrong as error:
        return [error.at("name")]
    others = season.series.exclude(pk=old.pk) if old else season.series.all()
    taken = others.filter(name__iexact=called).exists()
    return [SERIES_TAKEN.at("name", season=str(season), name=called)] if taken else []


def _event_faults(season: Season, slugs: Sequence[str], events: dict[str, Event]) -> list[Fault]:
    if not slugs:
        return [SERIES_WITHOUT_EVENTS.at("events")]
    there = Listed(tuple(events))
    unknown = [
        EVENT_NOT_OF_SEASON.at("events", event=slug, season=str(season), there=there)
        for slug in dict.fromkeys(slugs)
        if slug not in events
    ]
    twice = [slug for place, slug in enumerate(slugs) if slug in slugs[:place]]
    return [*unknown, *(EVENT_TWICE_IN_SERIES.at("events", event=slug) for slug in dict.fromkeys(twice))]


def _slug(season: Season, name: str) -> str:
    return free_slug(name, "series", 70, {*season.series.values_list("slug", flat=True), *RESERVED})


def _said(series: Series) -> dict[str, object]:
    parts = series.parts.order_by("event__date", "event_id")
    return {
        "name": series.name,
        "events": ", ".join(parts.values_list("event__slug", flat=True)),
        "count_best": series.count_best,
        "ties": series.ties,
    }


def _note(season: Season, row: Series, before: dict[str, object], by: str) -> None:
    after = _said(row)
    found = changes(before, after)
    if not found:
        return
    act, done = ("series.changed", f": {in_words(found)}") if before else ("series.made", " made")
    log_history(
        by, act, f"Series {before.get('name', row.name)} of {season}{done}", club_id=season.club_id, subject=row.name,
        details={"changed": found} if before else after,
    )  # fmt: skip
