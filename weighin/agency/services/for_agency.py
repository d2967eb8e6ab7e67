"""What an agency's report asks for beside the slips: contact, county, ramp, and what became of dead fish."""

from collections.abc import Mapping
from typing import Any

from weighin.audit.domain.changes import changes, in_words
from weighin.audit.services import log_history, writing
from weighin.events.domain.faults import DEAD_FISH_WITHOUT_WORDS
from weighin.events.models import Event, Fate
from weighin.events.services.revision import raise_revision
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, Wrong

OF_EVENT = ("ramp", "dead_fish", "dead_fish_words")
MOST = {"contact": 200, "county": 80, "ramp": 120, "dead_fish_words": 200}


def written_for_agency(event: Event) -> dict[str, str]:
    """What is recorded now, field by field; blank is not recorded."""
    own = {name: getattr(event, name) for name in OF_EVENT}
    return {"contact": event.club.contact, "county": event.water.county, **own}


def write_for_agency(event: Event, said: Mapping[str, Any], by: str) -> None:
    """Record ``contact`` (the club's), ``county`` (the water's), ``ramp``, ``dead_fish`` and ``dead_fish_words``.

    A closed event takes them too: a report is written after the day, and none of them touches a result. The history says
    that the contact changed, never to what. Raises Faults with field names, all at once.
    """
    with writing():
        held = Event.everyone.select_for_update(of=("self",)).select_related("season__club", "water").get(pk=event.pk)
        before = written_for_agency(held)
        faults: list[Fault] = []
        now = {name: _read(name, str(said.get(name) or ""), faults) for name in before}
        if now["dead_fish"] == Fate.OTHER and not now["dead_fish_words"]:
            faults.append(DEAD_FISH_WITHOUT_WORDS.at("dead_fish_words"))
        if faults:
            raise Faults(faults)
        found = changes(before, now)
        if not found:
            return
        if "contact" in found:
            held.club.contact = now["contact"]
            held.club.save(update_fields=["contact"])
        if "county" in found:
            held.water.county = now["county"]
            held.water.save(update_fields=["county"])
        for name in OF_EVENT:
            setattr(held, name, now[name])
        held.save(update_fields=OF_EVENT)
        raise_revision(held)
        told = {name: pair for name, pair in found.items() if name != "contact"}
        said_of = [in_words(told)] if told else []
        sentence = "; ".join([*said_of, "the contact is written anew"] if "contact" in found else said_of)
        log_history(
            by, "event.for_agency", f"For the agency's report: {sentence}", club_id=held.season.club_id,
            event_id=held.pk, subject=held.slug, details={"changed": told},
        )  # fmt: skip


def _read(name: str, text: str, faults: list[Fault]) -> str:
    try:
        if name == "dead_fish":
            return values.choice(text, Fate.values) if text.strip() else ""
        return values.line(text, MOST[name])
    except Wrong as error:
        faults.append(error.at(name))
        return ""
