"""Everything that may be done to the slips of an event, in any order, held after each act against a dict.

In a suite the orders are the same each time; WEIGHIN_MACHINE_RUNS=500 tries so many others.
"""

import os
from copy import deepcopy
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import world
from django.conf import settings as site
from django.db import connection
from django.test import Client
from django.utils import timezone
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from stations.speaking import Speaker, message, new_id

from weighin.events.access import find
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.rules.faults import Faults
from weighin.safekeeping.services import backups
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import settle
from weighin.standings.models import OfficialResult
from weighin.standings.queries.standings import standings_of
from weighin.standings.services import lift_embargo, publish_result, set_closed, set_public, start_embargo

BOATS = 3
RUNS = int(os.environ.get("WEIGHIN_MACHINE_RUNS", "0"))
PROFILE = settings(
    max_examples=RUNS or 8,
    stateful_step_count=30,
    derandomize=not RUNS,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    # Making a failing order shorter takes minutes: only where somebody asks for many
    phases=[Phase.generate, Phase.shrink] if RUNS else [Phase.generate],
)
boats = st.integers(1, BOATS)
weights = st.integers(1, 2000).map(lambda n: f"{n / 100:.2f}")
which = st.integers(0, 10**6)


@dataclass
class Model:
    """What the site must have: every row by its id, what a station sent of them, and which of them are current."""

    sent: dict[str, dict[str, Any]] = field(default_factory=dict)
    numbers: dict[str, int] = field(default_factory=dict)
    current: dict[int, list[str]] = field(default_factory=lambda: {boat: [] for boat in range(1, BOATS + 1)})
    closed: bool = False
    public: bool = False
    official: dict[int, Any] = field(default_factory=dict)
    # What the crowd saw when places were held back; None while it sees everything
    shown: Any = None

    def standing(self) -> dict[int, Decimal]:
        """Total by boat: what its one current slip weighed; a doubled day counts nowhere."""
        return {boat: Decimal(self.sent[ids[0]]["gross"]) for boat, ids in self.current.items() if len(ids) == 1}


class Door(RuleBasedStateMachine):
    """A station, a director, a crowd and somebody with backups."""

    count = 0

    @initialize()
    def begin(self) -> None:
        Door.count += 1
        self.slug = world.event(f"Machine {Door.count}", BOATS, date="2026-06-20").slug
        self.model, self.backup = Model(), None
        self.crowd = Client()
        self.revision = self.event.revision
        self.pair()

    @property
    def event(self) -> Event:
        found = find(self.slug)
        assert found is not None
        return found

    def pair(self) -> None:
        self.table = Speaker(self.event)

    def of(self, number: int) -> str:
        return list(self.model.sent)[number % len(self.model.sent)]

    def keep(self, item: dict[str, Any], answer: dict[str, Any], state: str) -> None:
        assert answer["state"] == state, (item, answer)
        self.model.sent[item["id"]], self.model.numbers[item["id"]] = item, answer["slip"]

    def wrote(self) -> None:
        assert self.event.revision > self.revision
        self.revision = self.event.revision

    def record_of(self, boat: int) -> str:
        return "second" if self.model.current[boat] else "kept"

    @rule(boat=boats, gross=weights)
    def record(self, boat: int, gross: str) -> None:
        item = message(boat=boat, gross=gross)
        if self.model.closed:
            assert self.table.post("slips", {"slips": [item]}).status_code in {401, 403}
            return
        self.keep(item, self.table.one(item), self.record_of(boat))
        self.model.current[boat].append(item["id"])
        self.wrote()

    @precondition(lambda self: self.model.sent and not self.model.closed)
    @rule(number=which, gross=weights, void=st.booleans())
    def correct_or_void(self, number: int, gross: str, void: bool) -> None:
        old = self.of(number)
        boat = self.model.sent[old]["boat"]
        item = message(boat=boat, gross=gross, replaces=old, reason="Read again", **({"void": True} if void else {}))
        answer = self.table.one(item)
        if self.model.current[boat] != [old]:
            assert answer["state"] == "refused" and {fault["field"] for fault in answer["faults"]} == {"replaces"}
            return
        self.keep(item, answer, "kept")
        self.model.current[boat] = [] if void else [item["id"]]
        self.wrote()

    @precondition(lambda self: not self.model.closed)
    @rule(boat=boats, gross=weights)
    def correction_before_its_slip_and_both_twice(self, boat: int, gross: str) -> None:
        first = message(boat=boat, gross=gross)
        then = message(boat=boat, gross="9.99", replaces=first["id"], reason="Read again")
        state = self.record_of(boat)
        answers = self.table.send(then, first, then, first)
        self.keep(first, answers[1], state)
        if state == "kept":
            self.keep(then, answers[0], "kept")
            assert [one["state"] for one in answers[2:]] == ["already", "already"]
        else:
            assert [answers[0]["state"], answers[2]["state"]] == ["refused", "refused"]
        self.model.current[boat].append(then["id"] if state == "kept" else first["id"])
        self.wrote()

    @precondition(lambda self: self.model.sent and not self.model.closed)
    @rule(number=which, alter=st.booleans())
    def replay(self, number: int, alter: bool) -> None:
        item = self.model.sent[self.of(number)]
        answer = self.table.one(item | {"note": "other words"} if alter else item)
        assert answer["state"] == ("differs" if alter else "already")
        assert alter or answer["slip"] == self.model.numbers[item["id"]]
        assert self.event.revision == self.revision

    @precondition(lambda self: not self.model.closed and any(len(ids) > 1 for ids in self.model.current.values()))
    @rule(number=which)
    def settle_a_doubled_day(self, number: int) -> None:
        boat, ids = next((boat, ids) for boat, ids in self.model.current.items() if len(ids) > 1)
        counts = ids[number % len(ids)]
        slip = WeighSlip.objects.get(event__slug=self.slug, number=self.model.numbers[counts])
        for void in settle(slip, "Both looked at", "quill"):
            self.model.numbers[str(void.id)] = void.number
        self.model.current[boat] = [counts]
        self.wrote()

    @rule()
    def publish(self) -> None:
        may = self.model.sent and all(len(ids) < 2 for ids in self.model.current.values())
        try:
            made = publish_result(self.event, "quill", "Looked at again")
        except Faults:
            # Refused too where nothing changed since the last version
            assert not may or self.model.official
            return
        assert may
        self.model.official[made.version] = deepcopy(made.document)
        self.model.public, self.model.shown = True, None
        self.wrote()

    @rule(public=st.booleans())
    def open_or_take_back_the_pages(self, public: bool) -> None:
        set_public(self.event, public, "quill")
        self.model.public = public
        self.wrote()

    @precondition(lambda self: self.model.public and self.model.shown is None)
    @rule()
    def hold_places_back(self) -> None:
        before = self.told()
        start_embargo(self.event, timezone.now(), "quill")
        self.model.shown = before
        self.wrote()

    @precondition(lambda self: self.model.shown is not None)
    @rule()
    def show_places_again(self) -> None:
        lift_embargo(self.event, "quill")
        self.model.shown = None
        self.wrote()

    @rule()
    def close_or_reopen(self) -> None:
        doubled = any(len(ids) > 1 for ids in self.model.current.values())
        if self.model.closed:
            set_closed(self.event, False, "quill", "One more boat")
            self.pair()
        elif doubled:
            with pytest.raises(Faults):
                set_closed(self.event, True, "quill", accounted=True)
            return
        else:
            set_closed(self.event, True, "quill", accounted=True)
        self.model.closed = not self.model.closed
        self.wrote()

    @precondition(lambda self: connection.vendor == "sqlite")
    @rule()
    def back_up(self) -> None:
        file = Path(site.DATA) / f"machine-{new_id()}.sqlite3"
        backups.back_up(file)
        self.backup = file, deepcopy(self.model)

    @precondition(lambda self: self.backup is not None)
    @rule()
    def restore(self) -> None:
        file, model = self.backup
        was_closed = self.model.closed
        backups.restore(file)
        self.model = deepcopy(model)
        if was_closed and not self.model.closed:
            self.pair()
        self.wrote()

    def told(self) -> Any:
        """What the crowd is told of the places."""
        answer = self.crowd.get(f"/api/events/{self.slug}")
        assert answer.status_code == 200
        return {key: value for key, value in answer.json().items() if key not in {"revision", "ledger", "generated"}}

    def teardown(self) -> None:
        if getattr(self, "backup", None):
            self.backup[0].unlink(missing_ok=True)

    @invariant()
    def one_row_an_acknowledged_id(self) -> None:
        rows = WeighSlip.objects.filter(event__slug=self.slug).values_list("id", "number")
        assert sorted((str(slip_id), number) for slip_id, number in rows) == sorted(self.model.numbers.items())

    @invariant()
    def one_current_slip_a_boat_unless_doubled(self) -> None:
        standings = standings_of(self.event)
        found = {boat: sorted(str(slip.id) for slip in slips) for (boat, _), slips in standings.slips.items()}
        assert found == {boat: sorted(ids) for boat, ids in self.model.current.items() if ids}
        totals = {one.result.team.boat: one.result.total for one in standings.outcome.ranked}
        assert {boat: total for boat, total in totals.items() if boat in self.model.standing()} == self.model.standing()

    @invariant()
    def nothing_is_altered(self) -> None:
        assert not ledger_of(self.event).faults

    @invariant()
    def official_versions_stay(self) -> None:
        kept = dict(OfficialResult.objects.filter(event__slug=self.slug).values_list("version", "document"))
        assert kept == self.model.official

    @invariant()
    def the_crowd_sees_what_it_may(self) -> None:
        if not self.model.public:
            assert self.crowd.get(f"/api/events/{self.slug}").status_code == 404
        elif self.model.shown is not None:
            assert self.told() == self.model.shown

    @invariant()
    def revisions_only_rise(self) -> None:
        assert self.event.revision >= self.revision


@pytest.mark.django_db(transaction=True)
def test_the_door_in_any_order(monkeypatch: pytest.MonkeyPatch) -> None:
    # Each restore would start two processes more; tests/operations/test_backups.py tries what they look at
    monkeypatch.setattr(backups, "_refuse_unfit", lambda *_: None)
    run_state_machine_as_test(Door, settings=PROFILE)
