"""A season's calendar at once: every event of a list, all of them or none."""

from collections.abc import Mapping
from datetime import time
from decimal import Decimal
from typing import Any

from django.db import transaction

from weighin.audit.services import log_history, writing
from weighin.clubs.models import Club, Season, Water
from weighin.clubs.services.clubs import make_water
from weighin.events.models import Event, Handling
from weighin.events.queries.club_sheets import NamedSheet, named_sheet, usual_unit
from weighin.events.services.events import FIELDS, make_event
from weighin.events.services.rule_sheet import copy_rules
from weighin.rules.faults import Fault, Faults
from weighin.rules.look_alikes import folded_name
from weighin.schedule.domain.faults import NO_SUCH_SOURCE, ROW_NEW_WATER, ROW_WITHOUT_WATER
from weighin.schedule.parsing.season_list import SeasonRow, of_row, read_season
from weighin.schedule.services.next_event import make_next

# What a club's first events are like until somebody says otherwise
FIRST: dict[str, Any] = {
    "start_time": time(6), "due_time": time(15), "time_zone": "America/Chicago", "handling": Handling.HOLD_RELEASE,
    "elevation_ft": "", "lake_temp": "", "entry_fee": Decimal(0), "added_money": Decimal(0), "permit": "", "note": "",
}  # fmt: skip


def make_season_events(club: Club, said: Mapping[str, Any], by: str) -> list[Event]:
    """The events of a list, in its order; a list with any fault makes none.

    ``said`` holds ``season``, ``lines``, ``source`` (an event, ``event:SLUG``, whose set-up they take, or a rule sheet) and
    ``new_waters``, whether waters that the club does not have are added. Raises Faults; those of a line name it.
    """
    rows = read_season(said["lines"])
    source = said["source"]
    kind, _, slug = source.partition(":")
    template = Event.objects.filter(season__club=club, slug=slug).first() if kind == "event" else None
    sheet = named_sheet(club, source, usual_unit(club))
    if sheet is None:
        raise Faults([NO_SUCH_SOURCE.at("source")])
    made: list[Event] = []
    faults: list[Fault] = []
    with writing():
        waters = {folded_name(water.name): water for water in club.waters.all()}
        for row in rows:
            try:
                water = _water(club, row, template, waters, said["new_waters"], by)
                with transaction.atomic():
                    made.append(_make(club, said["season"], row, water, template, sheet, by))
            except Faults as found:
                faults += [of_row(row.number, fault) for fault in found.faults]
        if faults:
            raise Faults(faults)
        sentence = f"{len(made)} event{'' if len(made) == 1 else 's'} of season {said['season']} made from a list"
        log_history(by, "season.events_made", sentence, club_id=club.pk, details={"events": [e.slug for e in made]})
    return made


def _make(
    club: Club, season: Season, row: SeasonRow, water: Water, template: Event | None, sheet: NamedSheet, by: str
) -> Event:
    own = {"name": row.name, "season": season, "date": row.date, "water": water}
    if template is not None:
        elsewhere = {} if water == template.water else {"elevation_ft": ""}
        return make_next(template, {**own, **elsewhere}, by, teams=False)
    last = Event.objects.filter(season__club=club).order_by("-date", "-id").first()
    like = {name: getattr(last, name) for name in FIELDS} if last else FIRST
    fields = {
        **FIRST,
        **{name: like[name] for name in ("start_time", "due_time", "time_zone", "handling", "entry_fee")},
    }
    made = make_event(club, {**fields, **own, "weight_unit": sheet.rules.unit, "days": 1}, by)
    copy_rules(made, sheet, by, {})
    return made


def _water(club: Club, row: SeasonRow, template: Event | None, waters: dict[str, Water], new: bool, by: str) -> Water:
    """The club's water of a row, or the template's; a new one is known to the rows after it."""
    if not row.water:
        if template is None:
            raise Faults([ROW_WITHOUT_WATER.at("water")])
        return template.water
    found = waters.get(folded_name(row.water))
    if found is None:
        if not new:
            raise Faults([ROW_NEW_WATER.at("water", water=row.water)])
        found = waters[folded_name(row.water)] = make_water(club, row.water, None, by)
    return found
