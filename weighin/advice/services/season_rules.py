"""Set the rules by which a season's points are added up, and change them."""

from collections.abc import Mapping

from weighin.advice.domain.faults import CHANGE_WITHOUT_REASON, NOT_OF_SEASON
from weighin.audit.domain.changes import changes, in_words
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Season
from weighin.events.services.revision import raise_season
from weighin.events.services.rule_sheet import follow_season
from weighin.rules import rulebook
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.rules.sheet.keys import SEASON_KEYS
from weighin.rules.values import line
from weighin.standings.queries.season_rules import counted_events, season_rules

LONGEST_REASON = 200


def change_season_rules(season: Season, said: Mapping[str, str], by: str, reason: str = "") -> None:
    """Give the season points rules of its own: a key that is not said stays, a blank one is its default.

    Its events without a slip follow (``follow_season``); what is weighed keeps the points of its own sheet. Raises
    Faults with keys, and ``reason`` where it is blank though an event of the season counts already.
    """
    with writing():
        held = Season.objects.select_for_update(of=("self",)).select_related("club").get(pk=season.pk)
        faults = [NOT_OF_SEASON.at(key, key=key) for key in said if key not in SEASON_KEYS]
        before = season_rules(held)
        now = {} if before is None else before.written()
        wanted = {**{key: now.get(key, "") for key in SEASON_KEYS}, **said}
        rules, wrong = rulebook.read_what_can_be({key: wanted[key] for key in SEASON_KEYS}, "lb")
        after = {key: value for key, value in rules.written().items() if key in SEASON_KEYS}
        _keep(held, after, by, reason, [*faults, *wrong])
    season.rules = after


def clear_season_rules(season: Season, by: str, reason: str = "") -> None:
    """Let the season go by its latest event's points rules again. Raises Faults as ``change_season_rules``."""
    with writing():
        held = Season.objects.select_for_update(of=("self",)).select_related("club").get(pk=season.pk)
        _keep(held, {}, by, reason, [])
    season.rules = {}


def _keep(season: Season, after: dict[str, str], by: str, reason: str, faults: list[Fault]) -> None:
    found = changes(season.rules, {key: after.get(key) for key in SEASON_KEYS})
    why = " ".join(reason.split())
    try:
        line(reason, LONGEST_REASON)
    except Wrong as error:
        faults.append(error.at("reason"))
    if found and not why and counted_events(season):
        faults.append(CHANGE_WITHOUT_REASON.at("reason"))
    if faults:
        raise Faults(faults)
    if not found:
        return
    season.rules = after
    season.save(update_fields=["rules"])
    follow_season(season, {key: pair for key, pair in found.items() if pair[1] is not None}, by)
    raise_season(season)
    sentence = (
        f"Points rules of season {season.name}: {in_words(found)}"
        if after
        else f"Season {season.name} goes by its latest event's points rules"
    )
    log_history(
        by, "season.rules", f"{sentence} ({why})" if why else sentence, club_id=season.club_id, subject=season.name,
        details={"changed": found, "reason": why},
    )  # fmt: skip
