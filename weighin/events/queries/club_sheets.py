"""A club's rule sheets, and every sheet that can be read, copied or compared: the club's, its events', those to start from."""

from dataclasses import dataclass

from django.db.models import Prefetch, QuerySet
from django.utils.translation import gettext

from weighin.clubs.models import Club
from weighin.events.models import ClubSheet, Event, SheetVersion
from weighin.events.queries.events import rules_of
from weighin.rules import rulebook
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheets.starting import BY_SLUG, STARTING
from weighin.ui import figures

DEFAULTS = "defaults"


@dataclass(frozen=True)
class NamedSheet:
    """A sheet to read: ``source`` names it in addresses and forms; ``version`` where it is a club's."""

    source: str
    title: str
    rules: Rulebook
    version: SheetVersion | None = None


def sheets_of(club: Club) -> QuerySet[ClubSheet]:
    """The club's sheets by name, each with ``versions``, newest first."""
    return club.sheets.select_related("club").prefetch_related(
        Prefetch("versions", SheetVersion.objects.select_related("sheet"))
    )


def newest(sheet: ClubSheet) -> SheetVersion:
    """The version that stands now."""
    version: SheetVersion = sheet.versions.all()[0]
    return version


def read_version(version: SheetVersion) -> Rulebook:
    """What a version says."""
    return rulebook.read(version.written, version.sheet.weight_unit)


def usual_unit(club: Club) -> str:
    """The weight unit of the club's latest event; pounds while it has none."""
    latest = Event.objects.filter(season__club=club).order_by("-date", "-id")
    return latest.values_list("weight_unit", flat=True).first() or "lb"


def source_choices(club: Club) -> list[tuple[str, list[tuple[str, str]]]]:
    """What a sheet can be copied from or compared with, in groups."""
    groups = [
        *kept_choices(club),
        (gettext("The defaults"), [(DEFAULTS, gettext("All rules at their defaults"))]),
        (
            gettext("Events"),
            [
                (f"event:{one.slug}", f"{one.name}, {figures.day(one.date)}")
                for one in Event.objects.filter(season__club=club)
            ],
        ),
    ]
    return [(name, found) for name, found in groups if found]


def kept_choices(club: Club) -> list[tuple[str, list[tuple[str, str]]]]:
    """The club's sheets that are not retired, and those to start from."""
    sheets = [(f"sheet:{one.slug}", one.name) for one in club.sheets.filter(retired_at=None)]
    found = [(gettext("To start from"), [(f"start:{one.slug}", one.name) for one in STARTING])]
    return [(gettext("Sheets of the club"), sheets), *found] if sheets else found


def named_sheet(club: Club, source: str, unit: str) -> NamedSheet | None:
    """The sheet that ``source`` names, or None; those to start from are written in ``unit``."""
    kind, _, name = source.partition(":")
    if source == DEFAULTS:
        return NamedSheet(source, gettext("Defaults"), rulebook.defaults(unit))
    if kind == "start" and name in BY_SLUG:
        return NamedSheet(source, BY_SLUG[name].name, rulebook.read(BY_SLUG[name].written(unit), unit))
    if kind == "event":
        event = Event.objects.filter(season__club=club, slug=name).select_related("rule_sheet").first()
        return event_sheet(event) if event else None
    if kind != "sheet":
        return None
    slug, _, number = name.partition(":")
    versions = SheetVersion.objects.filter(sheet__club=club, sheet__slug=slug).select_related("sheet")
    if number:
        versions = versions.filter(number=number) if _figures(number) else versions.none()
    version = versions.first()
    return NamedSheet(source, titled(version), read_version(version), version) if version else None


def event_sheet(event: Event) -> NamedSheet:
    """An event's sheet."""
    return NamedSheet(f"event:{event.slug}", event.name, rules_of(event))


def copied_from(event: Event) -> SheetVersion | None:
    """The version of a club's sheet that the event's rules were copied from; None where they were not."""
    found = event.rule_sheet.copied_from_id
    return None if found is None else SheetVersion.objects.select_related("sheet").get(pk=found)


def same_as(event: Event) -> str:
    """The sheet whose rules the event's are, beside those of its season: the one they were copied from, else one to
    start from; blank where they are nobody else's."""
    rules, own = rules_of(event).written(), event.season.rules
    copied = copied_from(event)
    if copied is not None and copied.sheet.weight_unit == event.weight_unit:
        return titled(copied) if read_version(copied).written() | own == rules else ""
    return next((one.name for one in STARTING if one.written(event.weight_unit) | own == rules), "")


def titled(version: SheetVersion) -> str:
    """A version by its sheet's name and its number."""
    return gettext("%(sheet)s, version %(number)s") % {"sheet": version.sheet.name, "number": version.number}


def _figures(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 6
