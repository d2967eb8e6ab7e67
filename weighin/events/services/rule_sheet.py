"""Change the rule sheet, until the first slip locks it."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.utils import timezone

from weighin.audit.domain.changes import Changes, changes, in_words
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Season
from weighin.events.domain import fees, weighed
from weighin.events.domain.faults import FEE_WITHOUT_REASON, RULES_LOCKED, SHEET_IN_OTHER_UNIT
from weighin.events.models import Event, RuleSheet, SheetVersion
from weighin.events.queries.club_sheets import NamedSheet
from weighin.events.queries.events import first_slip
from weighin.events.queries.seals import event_seals
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.rules import rulebook, weights
from weighin.rules.faults import Fault, Faults, FieldName, Listed
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet.keys import KEYS, default_of
from weighin.rules.sheets.changes import RuleChange


def locked_sentence(slip_number: int) -> str:
    """Why the rule sheet cannot be changed any more, and what can be done instead."""
    return RULES_LOCKED.says(slip=slip_number).shown()


def fee_reason(event: Event, kind: str, changes_it: bool, said: Mapping[str, Any], faults: list[Fault]) -> str:
    """Why a fee changes that a team has paid, as the end of a sentence; a fault where nobody says it."""
    if not changes_it or not fees.is_paid(event, kind):
        return ""
    reason = " ".join(str(said.get("fee_reason") or "").split())[:300]
    if not reason:
        faults.append(FEE_WITHOUT_REASON.at("fee_reason", kind))
    return f" ({reason})"


def change_rules(event: Event, said: Mapping[str, str], by: str) -> None:
    """Keep a rule sheet: a blank value is the key's default, a key that is not said stays. ``fee_reason`` says why the
    pot's fee changes once paid.

    Raises Faults with keys, or once a slip is kept.
    """
    written = {name: value for name, value in said.items() if name != "fee_reason"}
    with writing():
        held = _lock_unlocked(event)
        _keep(held, {**held.rule_sheet.written, **written}, held.rule_sheet.copied_from, "Rule sheet", said, by)


def keep_change(
    event: Event, rules: Rulebook, reason: str, by: str, through: int | None, now: datetime | None = None
) -> None:
    """Keep a rule sheet that changes after the first slip, with ``through`` from the day after that one on.

    Whoever calls it, inside the write that holds the event, has seen what it changes (``advice``). Raises Faults.
    """
    before, sheet = event.rule_sheet.written, event.rule_sheet
    found = changes(before, rules.written())
    at = (now or timezone.now()).isoformat()
    change = RuleChange(len(sheet.versions) + 1, through, found, reason, at, by)
    RuleSheet.objects.filter(event=event).update(versions=[*sheet.versions, change.row()])
    act = "Rule sheet of the whole event" if through is None else f"Rule sheet from day {through + 1} on"
    _keep(event, rules.written(), sheet.copied_from, act, {"fee_reason": reason}, by, f" ({reason})")


def copy_rules(event: Event, source: NamedSheet, by: str, said: Mapping[str, Any]) -> None:
    """Write ``source`` over the event's rule sheet. Raises Faults as ``change_rules``, and where weights cannot follow."""
    with writing():
        held = _lock_unlocked(event)
        written, stay = in_unit(source.rules.written(), source.rules.unit, held.weight_unit)
        if stay:
            keys = Listed(tuple(FieldName(name) for name in stay))
            raise Faults([SHEET_IN_OTHER_UNIT.at("source", sheet=source.title, unit=source.rules.unit, keys=keys)])
        written |= held.season.rules
        _keep(held, written, source.version, f"Rule sheet copied from {source.title}", said, by)


def follow_season(season: Season, changed: Changes, by: str) -> None:
    """Let the season's events without a slip follow ``changed`` points rules, each where it said what the season said
    before; where the season said nothing, all do. Call it inside the write that changes the season's rules."""
    events = list(season.events.filter(closed_at__isnull=True))
    begun = weighed.begun(event.pk for event in events)
    for event in events:
        if event.pk in begun:
            continue
        held = lock_open_event(event)
        written = held.rule_sheet.written
        rules = {key: after for key, (before, after) in changed.items() if before in (None, written.get(key))}
        _keep(held, {**written, **rules}, held.rule_sheet.copied_from, "Rule sheet, as the season's", {}, by)


def _lock_unlocked(event: Event) -> Event:
    held = lock_open_event(event)
    slip = first_slip(held)
    if slip is not None:
        raise Faults([RULES_LOCKED.at("", slip=slip)])
    return held


def _keep(
    held: Event,
    written: Mapping[str, str],
    source: SheetVersion | None,
    act: str,
    said: Mapping[str, Any],
    by: str,
    why: str = "",
) -> None:
    read = rulebook.read(written, held.weight_unit)
    if wrong := rulebook.cut_faults(read, held.event_days.count()):
        raise Faults(wrong)
    after = read.written()
    found = changes(held.rule_sheet.written, after)
    if not found and source == held.rule_sheet.copied_from:
        return
    faults: list[Fault] = []
    why = why or fee_reason(held, "big_fish_pot", "big_fish_pot_fee" in found, said, faults)
    if faults:
        raise Faults(faults)
    RuleSheet.objects.filter(event=held).update(written=after, copied_from=source)
    held.rule_sheet.written = after
    owing = fees.follow(held) if "big_fish_pot_fee" in found else {}
    raise_revision(held)
    sentence = f"{act}: {in_words(found)}{why}" if found else act
    log_history(
        by, "rules.changed", sentence, club_id=held.season.club_id, event_id=held.pk, subject="rule sheet",
        details={"changed": found}, bound={**event_seals(held.pk), **owing},
    )  # fmt: skip


def in_unit(written: Mapping[str, str], old: str, new: str) -> tuple[dict[str, str], list[str]]:
    """The rule sheet for another weight unit, and the keys that cannot follow without rounding a weight.

    Defaults become the new unit's defaults; pounds and ounces turn into each other exactly.
    """
    if old == new:
        return dict(written), []
    found, stay = dict(written), []
    defaults = rulebook.defaults(new).written()
    for key in KEYS:
        text = written.get(key.name)
        if text is None or not key.kind.startswith("weight") or {old, new} == {"lb", "lb-oz"}:
            continue
        if _same(text, default_of(key, old), old):
            found[key.name] = defaults[key.name]
        else:
            stay.append(key.name)
    if {old, new} == {"lb", "lb-oz"}:
        rules = rulebook.read(written, old)
        for key in KEYS:
            if key.kind == "weight":
                found[key.name] = weights.show(getattr(rules, key.name), new)
            elif key.kind == "weights":
                found[key.name] = ", ".join(weights.show(weight, new) for weight in getattr(rules, key.name))
    return found, stay


def _same(one: str, other: str, unit: str) -> bool:
    return [weights.read(t, unit) for t in one.split(",")] == [weights.read(t, unit) for t in other.split(",")]
