"""Every written row is declared: its fields stand in a record type, or here with the reason why not."""

import importlib
import pkgutil
from typing import Any

import pytest
from django.apps import apps

import weighin
from weighin.records.services.record_type import RecordType

# What the door writes with a row, whoever brings it
THE_DOORS = frozenset(
    "id sent_id event entry number position version link replaces void sent_at received_at recorded_at recorded_by".split()
)
# Models that the door does not write
OTHERS = {
    "audit.HistoryEntry": "written with every row, by the door itself",
    "audit.DatabaseLife": "one key, written by a restore",
    "audit.KeptAside": "words of a history entry, written with it",
    "letters.Letter": "an e-mail on its way, of what other rows say; blank once it is sent",
    "accounts.User": "written by Django's own forms of accounts, before there is an event",
    "accounts.Device": "a session in words, made by a sign-in",
    "accounts.SecondFactor": "a key that no person writes",
    "accounts.RecoveryCode": "a code that no person writes",
    "accounts.SecurityEntry": "says who was refused; it counts and is pruned, so it is no record of an event",
    "clubs.Invitation": "stands below the door's holder, and of no event",
    "clubs.Club": "stands below the door's holder; its service raises what depends on it",
    "clubs.Season": "stands below the door's holder; its service raises what depends on it",
    "clubs.Water": "stands below the door's holder; its service raises what depends on it",
    "privacy.ClubPrivacy": "a club's, written with its history by a service of its own",
    "clubs.Membership": "stands below the door's holder; its service raises what depends on it",
    "registration.PayeeNotice": "a club's, of no event; written with its history by a service of its own",
    "events.Event": "is the holder itself",
    "events.EventDay": "is what rows are read beside: written with the event",
    "events.Flight": "is what rows are read beside: written with the event",
    "events.RuleSheet": "is what rows are read beside: written with the event",
    "events.ClubSheet": "a club's, of no event; written with its history by a service of its own",
    "events.SheetVersion": "a club's, of no event; written with its history by a service of its own",
    "roster.Team": "made of the names of entries",
    "roster.Entry": "is what rows are read beside: written with its anglers as one act",
    "roster.Angler": "written with the entry",
    "roster.Contact": "written with the entry, erased when somebody asks, and so in no chain",
    "schedule.Notice": "written with the days that it is about, as one act",
    "scales.ScaleNow": "the last word of a scale, written over and kept in no record",
    "stations.Station": "a token; of what it may do nothing is corrected, only withdrawn",
    "seasons.Series": "a season's, of no event; written with its history by a service of its own",
    "seasons.SeriesEvent": "written with its series",
    "standings.OfficialResult": "frozen from other rows, nobody writes its values",
    "standings.Holdback": "two moments that no person writes",
    "standings.Posting": "frozen from other rows, nobody writes its values",
    "rehearsal.Rehearsal": "how far simulated boats are; it is no record of an event, and is wiped",
    "mortality.PublishedOnce": "what was published, frozen from other rows",
}
# Fields that no person writes
WORKED_OUT = {
    "line.LineTerms": {"at": "the moment at which it was set"},
    "registration.Draw": {"order": "worked out from the seed", "were": "what the entries had before"},
    "signup.SignUpTerms": {"was_open": "whether it stood open before"},
    "signup.SignUp": {
        **dict.fromkeys(("state", "decided_by", "decided_at", "reason"), "what the desk decided about it"),
        **dict.fromkeys(("consent_words", "consented_at"), "what the page showed beside the box, and when"),
        **dict.fromkeys(("said_digest", "token_digest", "link_number", "site"), "digests, and how its link is made"),
        "language": "that of the page on which it was written, for its letters",
        "told_to_wait": "what the team was told last",
    },
    "standings.Protest": {"case": "its number, the same through corrections"},
    "tanks.HandedBag": {"release": "the batch they went back with, written with it"},
    "holding.StudyPen": {"record": "its finished row, once it is ended"},
    "scales.Scale": {"unit": "the event's, in which the division is written"},
    "scales.ScaleCheck": dict.fromkeys(("unit", "division", "new"), "the scale's when it was tested"),
    "slips.PaperPad": {"handed_at": "the moment at which it is written down"},
    "checkin.DueNotice": {"moved": "the clocks before and after, of the minutes or the time that are written"},
    "care.SentNote": {"said": "the care fields that the note says", "stands": "whether the care note says them too"},
}


def _kinds(kind: type[RecordType[Any]]) -> set[type[RecordType[Any]]]:
    return {kind, *(one for child in kind.__subclasses__() for one in _kinds(child))}


@pytest.fixture(scope="module")
def declared() -> dict[str, set[str]]:
    """The field names of every model that a record type is of."""
    for module in pkgutil.walk_packages(weighin.__path__, "weighin."):
        if ".migrations" not in module.name and ".management" not in module.name and module.name != "weighin.wsgi":
            importlib.import_module(module.name)
    found: dict[str, set[str]] = {}
    for kind in _kinds(RecordType):
        if hasattr(kind, "model"):
            found.setdefault(kind.model._meta.label, set()).update(field.name for field in kind.fields)
    return found


MODELS = [model for model in apps.get_models() if model.__module__.startswith("weighin.")]


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model._meta.label)
def test_every_field_is_declared_or_exempt_with_a_reason(model: Any, declared: dict[str, set[str]]) -> None:
    label = model._meta.label
    if label in OTHERS:
        assert label not in declared, "it is written through the door by now"
        return
    exempt = WORKED_OUT.get(label, {})
    named = {field.name for field in model._meta.concrete_fields} - THE_DOORS
    assert named - declared.get(label, set()) == set(exempt)


def test_nothing_is_exempt_that_is_not_there() -> None:
    assert {*OTHERS, *WORKED_OUT} <= {model._meta.label for model in MODELS}
