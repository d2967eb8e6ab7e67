"""What the desk saw of each boat and what is missing; substitutes with a reason; withdrawals paid back in one act."""

from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.audit.models import AppendOnlyError, HistoryEntry, KeptAside
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.registration.domain.cash import FEE, POT
from weighin.registration.models import Payment
from weighin.registration.queries.boats import boats_at_desk
from weighin.registration.queries.till import till_of
from weighin.registration.services.desk import pay_fees
from weighin.registration.services.draws import draw, void_draw
from weighin.registration.services.payments import void_payment
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import DeskAsks, Entry, Seen
from weighin.roster.services.contacts import keep_contact
from weighin.roster.services.seen import ask_for, mark_seen, undo_seen
from weighin.roster.services.substitutes import substitute
from weighin.roster.services.teams import remove_entry
from weighin.rules.faults import Faults

pytestmark = [pytest.mark.django_db, pytest.mark.database]
ALL = [what.value for what in Seen.What]


@pytest.fixture
def event() -> Event:
    rows = world.pairs(3, "Desk pair", "Desk angler", angler_2="Second")
    rows[1]["angler_2"], rows[2]["angler_2"] = "Other", ""
    return world.event("Ramp day", rows, days=2, rules={"big_fish_pot_fee": "10"}, entry_fee="60")


@pytest.fixture
def desk(event: Event) -> Client:
    return world.member(event.club, Role.DESK_OFFICIAL)


def at(event: Event, *team: str) -> str:
    return reverse(f"registration:desk_boat{'' if team else 's'}", args=[event.slug, *team])


def missing(event: Event, boat: int, day: int | None = 1) -> tuple[str, ...]:
    return next(one.missing for one in boats_at_desk(event, day) if one.entry.boat == boat)


def test_what_was_seen_says_who_and_when_and_the_rest_is_missing(event: Event, desk: Client) -> None:
    keep_contact(event.entries.get(boat=1), ContactValues("", "Kay 555-0172", ""), "test")
    assert missing(event, 1) == tuple(ALL) and missing(event, 2) == (*ALL, DeskAsks.CONTACT)
    desk.post(f"{at(event)}?day=1", {"seen": "1|waiver"})
    desk.post(f"{at(event)}?day=1", {"seen": "1|waiver"})
    desk.post(f"{at(event)}?day=1", {"seen": "1|safety"})
    assert missing(event, 1) == ("license", "membership") and missing(event, 1, day=2)[2:] == tuple(ALL[3:])
    rows = list(Seen.objects.values_list("number", "what", "day"))
    assert rows == [(1, "waiver", None), (2, "no_fish", 1), (3, "jackets", 1), (4, "kill_switch", 1)]
    page = desk.get(f"{at(event)}?day=1").content.decode()
    assert "Three of 3 teams are missing something." in page and Seen.objects.all()[0].recorded_by in page
    assert "License, Membership" in page
    line = HistoryEntry.objects.filter(event_id=event.pk, act="seen.recorded").first()
    assert line is not None and line.sentence == "Boat 1, Desk pair 1: seen: Waiver" and line.subject == "boat 1"


def test_only_those_missing_something_and_only_what_is_asked_for(event: Event, desk: Client) -> None:
    pay_fees(event, "1", [FEE], "cash", "test", uuid4())
    asks = reverse("registration:desk_asks", args=[event.slug])
    assert desk.post(asks, {"asked": ["kill_switch", "waiver", "jackets"]}).status_code == 302
    assert DeskAsks.objects.get().asked == "waiver,jackets,kill_switch"
    assert desk.post(asks, {"asked": ["beard"]}, follow=True).content.decode().count("Nothing was saved") == 1
    desk.post(f"{at(event)}?day=1", {"seen": "1|waiver"})
    desk.post(f"{at(event)}?day=1&show=missing", {"seen": "1|safety"})
    page = desk.get(f"{at(event)}?day=1&show=missing")
    assert [line.team for line in page.context["lines"]] == ["2", "3"]
    assert page.context["heads"] == ["Waiver", "Safety check"] and "owes" not in page.content.decode()
    assert sorted(Seen.objects.values_list("what", flat=True)) == ["jackets", "kill_switch", "waiver"]
    ask_for(event, [], "test")
    ask_for(event, [], "test")
    assert DeskAsks.objects.count() == 2 and missing(event, 2) == ()
    page = desk.get(at(event)).content.decode()
    assert "Two of 3 teams are missing something." in page and "$60.00" in page


def test_undone_by_a_new_row_and_by_one_press(event: Event, desk: Client) -> None:
    desk.post(f"{at(event, '2')}?day=2", {"act": "seen", "seen": "2|jackets"})
    row = Seen.objects.get()
    assert (row.what, row.day) == ("jackets", 2)
    for _ in range(2):
        desk.post(f"{at(event, '2')}?day=2", {"act": "undo", "undo": "1"})
    assert Seen.objects.count() == 2 and Seen.objects.get(number=2).replaces == row
    assert "jackets" in missing(event, 2, day=2)
    assert "not seen after all: Life jackets" in HistoryEntry.objects.filter(act="seen.voided").get().sentence
    mark_seen(event, "2", ["jackets"], 2, "test")
    assert "jackets" not in missing(event, 2, day=2)
    with pytest.raises(Faults):
        undo_seen(row, "test")
    with pytest.raises(AppendOnlyError):
        row.delete()


def test_the_safety_check_is_of_a_day_and_of_a_team(event: Event, desk: Client) -> None:
    for team, what, day, field in (("1", "jackets", 3, "day"), ("9", "waiver", None, "entry"), ("1", "", None, "what")):
        with pytest.raises(Faults) as found:
            mark_seen(event, team, [what], day, "test")
        assert [fault.field for fault in found.value.faults] == [field]
    assert "There is no team 9" in desk.post(at(event), {"seen": "9|waiver"}, follow=True).content.decode()
    assert desk.get(at(event, "9")).status_code == 404 and not Seen.objects.exists()


def test_a_waiver_seen_hinders_no_void_of_the_draw_but_the_removal(event: Event) -> None:
    Entry.everyone.filter(event=event, boat=3).update(boat=None)
    draw(event, "boats", "test", "coin heads")
    mark_seen(event, "3", ["waiver"], None, "test")
    void_draw(event, "boats", "test", "a team was left out")
    waiting = Entry.everyone.get(event=event, boat=None)
    assert boats_at_desk(event, 1)[0].seen["waiver"].entry == waiting
    with pytest.raises(Faults):
        remove_entry(waiting, "test")


def test_a_substitute_needs_a_reason_and_the_history_keeps_who_was(event: Event, desk: Client) -> None:
    said: dict[str, Any] = {"act": "substitute", "substitute-position": "2", "substitute-name": "Sue Reed"}
    without = desk.post(at(event, "1"), said).content.decode()
    assert "Write why: the history keeps it" in without and 'value="Sue Reed"' in without
    taken = {**said, "substitute-name": "other", "substitute-reason": "flu"}
    assert "Other fishes in boat 2 already" in desk.post(at(event, "1"), taken).content.decode()
    desk.post(at(event, "1"), {**said, "substitute-reason": "flu"})
    entry = Entry.objects.get(event=event, boat=1)
    assert [a.name for a in entry.anglers.all()] == ["Desk angler 1", "Sue Reed"]
    line = HistoryEntry.objects.filter(event_id=event.pk, act="entry.changed").get()
    assert line.sentence.endswith("(flu)") and line.details["why"] == "flu"
    assert "Second" not in line.sentence and "Sue Reed" not in str(line.details)
    assert {"Second", "Sue Reed"} <= set(KeptAside.objects.values_list("words", flat=True))
    assert not ledger_of(event).faults
    with pytest.raises(Faults) as found:
        substitute(Entry.objects.get(event=event, boat=3), 2, "", "", "test")
    assert [fault.field for fault in found.value.faults] == ["position", "name", "reason"]


def test_a_withdrawal_gives_back_in_one_act_and_owes_nothing(event: Event, desk: Client) -> None:
    pay_fees(event, "1", [FEE, POT], "check", "test", uuid4())
    form = desk.get(at(event, "1")).context["withdraw"]
    assert form.fields["back"].initial == ["0", "1"]
    said = {"act": "withdraw", "key": form.initial["key"], "back": ["0", "1"]}
    page = desk.post(at(event, "1"), said).content.decode()
    assert "Choose how it is refunded" in page and "Write why the team withdraws" in page
    assert Entry.objects.get(event=event, boat=1).status == "entered"
    said |= {"means": "cash", "reason": "motor"}
    page = desk.post(at(event, "1"), said, follow=True).content.decode()
    assert "Boat 1, Desk pair 1 is withdrawn; $70.00 refunded." in page
    entry = Entry.objects.get(event=event, boat=1)
    assert (entry.status, entry.paid, entry.big_fish_pot) == ("withdrawn", False, False)
    back = Payment.objects.filter(amount__lt=0).values_list("kind", "amount", "means", "reason")
    assert list(back) == [
        ("entry_fee", Decimal(-60), "cash", "motor"),
        ("big_fish_pot", Decimal(-10), "cash", "motor"),
    ]
    cash = till_of(event).cash
    assert (cash.back, cash.difference) == (Decimal(70), 0)
    assert entry.pk not in {owed.entry for owed in cash.owed} and missing(event, 1) == ()
    desk.post(at(event, "1"), said)
    assert Payment.objects.count() == 4
    again = desk.post(at(event, "1"), {"act": "withdraw", "reason": "motor"}).status_code
    assert again == 200 and Payment.objects.count() == 4


@pytest.mark.parametrize("why", ["x" * 10_000, "motor\u202e", "mo\x07tor"])
def test_a_reason_is_one_line_that_can_be_read(event: Event, desk: Client, why: str) -> None:
    for act, more in (("withdraw", {"reason": why}), ("substitute", _substituted(why))):
        page = desk.post(at(event, "1"), {"act": act, **more}).content.decode()
        assert "characters" in page and not HistoryEntry.objects.filter(act="entry.changed").exists()


def _substituted(why: str) -> dict[str, str]:
    return {"substitute-position": "1", "substitute-name": "Sue Reed", "substitute-reason": why}


def test_a_withdrawal_gives_nothing_back_that_was_not_seen(event: Event, desk: Client) -> None:
    first, _ = pay_fees(event, "1", [FEE, POT], "check", "test", uuid4())
    form = desk.get(at(event, "1")).context["withdraw"]
    said = {"act": "withdraw", "meant": form["meant"].value(), "back": ["0"], "means": "cash", "reason": "motor"}
    void_payment(first, "bounced", "test")
    assert "look at them, then check the boxes again" in desk.post(at(event, "1"), said).content.decode()
    assert Entry.objects.get(event=event, boat=1).status == "entered"
    assert not Payment.objects.filter(amount__lt=0).exists()


def test_a_withdrawal_without_money_and_one_that_keeps_the_fee(event: Event, desk: Client) -> None:
    desk.post(at(event, "2"), {"act": "withdraw", "reason": "boat stolen"})
    assert Entry.objects.get(event=event, boat=2).status == "withdrawn" and not Payment.objects.exists()
    pay_fees(event, "3", [FEE], "cash", "test", uuid4())
    desk.post(at(event, "3"), {"act": "withdraw", "reason": "no show", "means": "cash"})
    entry = Entry.objects.get(event=event, boat=3)
    assert (entry.status, entry.paid) == ("withdrawn", True) and Payment.objects.count() == 1


def test_money_that_fails_leaves_the_team_entered(event: Event, desk: Client, monkeypatch: Any) -> None:
    from weighin.registration.services import withdrawing

    def fails(*_said: Any, **_more: Any) -> None:
        raise Faults([])

    pay_fees(event, "1", [FEE], "cash", "test", uuid4())
    monkeypatch.setattr(withdrawing, "take_payment", fails)
    with pytest.raises(Faults):
        withdrawing.withdraw(event, Entry.objects.get(event=event, boat=1), [FEE], "cash", "motor", "test", uuid4())
    assert Entry.objects.get(event=event, boat=1).status == "entered"


def test_sixty_boats_ask_the_database_as_often_as_one(event: Event, desk: Client) -> None:
    counts = []
    for one in (world.event("Small list", 1), world.event("Large list", world.pairs(60, "Large", "L"))):
        for entry in one.entries.all():
            mark_seen(one, str(entry.boat), ["waiver", "jackets"], 1, "test")
        for where in (at(one), at(one, "1")):
            with CaptureQueriesContext(connection) as asked:
                assert desk.get(where).status_code == 200
            counts.append(len(asked))
    assert counts[:2] == counts[2:]


def test_a_closed_event_offers_nothing_to_press(event: Event, desk: Client) -> None:
    Event.objects.filter(pk=event.pk).update(closed_at="2026-06-21T00:00Z")
    for where in (at(event), at(event, "1")):
        page = desk.get(where).content.decode()
        assert 'name="seen"' not in page and 'value="withdraw"' not in page
    assert "is closed" in desk.post(at(event), {"seen": "1|waiver"}, follow=True).content.decode()
