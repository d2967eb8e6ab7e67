"""The pages of money: at the desk, corrections, side pots, the cash-up and pay-outs."""

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.registration.models import Payment, PayOut, SidePot
from weighin.registration.queries.till import till_of
from weighin.registration.services.side_pots import declare_side_pot
from weighin.roster.models import Entry

pytestmark = pytest.mark.django_db


@pytest.fixture
def event() -> Event:
    slips = [world.slip(boat="1", gross="8.50", big_fish="1.80"), world.slip(boat="2", gross="7.00")]
    return world.event("Desk", 3, slips, rules={"big_fish_pot_fee": "10"}, entry_fee="60")


@pytest.fixture
def director(event: Event) -> Client:
    return world.member(event.club)


def at(name: str, event: Event, *more: object) -> str:
    return reverse(f"registration:{name}", args=[event.slug, *more])


def test_a_team_pays_what_is_ticked_once_however_often_it_is_sent(event: Event) -> None:
    desk = world.member(event.club, Role.DESK_OFFICIAL)
    page = desk.get(at("money", event))
    assert "Three of 3 teams owe." in page.content.decode()
    said = {"key": page.context["form"].initial["key"], "entry": "1", "paid": ["0", "1"], "means": "cash"}
    for _ in range(2):
        assert desk.post(at("money", event), said).status_code == 302
    assert list(Payment.objects.values_list("kind", "means")) == [("entry_fee", "cash"), ("big_fish_pot", "cash")]
    again = desk.post(at("money", event), said | {"key": ""}).content.decode()
    assert "has paid the entry fee already" in again and "has paid the big fish pot already" in again
    wrong = desk.post(at("money", event), {"entry": "99"}).content.decode()
    assert "There is no team 99" in wrong and "Choose how it was paid" in wrong and "Check what the team pays" in wrong


def test_a_team_that_is_named_has_what_it_owes_ticked(event: Event, director: Client) -> None:
    def ticked(address: str) -> object:
        return director.get(at("money", event) + address).context["form"].fields["paid"].initial

    assert ticked("") == ["0"] and ticked("?team=1") == ["0"]
    director.post(at("money", event), {"entry": "1", "paid": ["0"], "means": "cash"})
    assert ticked("?team=1") == [] and ticked("?team=2") == ["0"]


@pytest.mark.parametrize(("page", "more"), [("money", {"entry": "1"}), ("desk", {"name": "New", "anglers": "Ash New"})])
def test_boxes_that_meant_something_else_are_ticked_again(event: Event, page: str, more: dict[str, str]) -> None:
    for name in ("Middle", "Last"):
        declare_side_pot(event, {"name": name, "fee": "5", "wins": "total", "shares": "100"}, "test")
    desk = world.member(event.club, Role.DESK_OFFICIAL)
    form = desk.get(at(page, event)).context["form"]
    hidden = {name: form[name].value() for name in ("key", "meant")}
    # Between the opening of the page and the press: the third box is now another pot's
    declare_side_pot(event, {"name": "Added", "fee": "8", "wins": "total", "shares": "100"}, "test")
    said = {**hidden, **more, "paid": ["2"], "means": "cash"}
    answer = desk.post(at(page, event), said)
    assert "The sums have changed since this page was opened" in answer.content.decode()
    assert not Payment.objects.exists() and not Entry.everyone.filter(name="New").exists()
    again = answer.context["form"]
    assert not again["paid"].value()
    assert desk.post(at(page, event), {**said, "meant": again["meant"].value()}).status_code == 302
    assert Payment.objects.get().pot == SidePot.objects.order_by("name")[0].name


def test_a_payment_is_corrected_and_voided_with_a_reason(event: Event, director: Client) -> None:
    said = {"entry": "1", "kind": "entry_fee", "amount": "$600.00", "means": "cash"}
    assert director.post(at("payment_other", event), said).status_code == 302
    where = at("payment", event, 1)
    without = director.post(where, {**said, "act": "correct", "amount": "60"})
    assert without.status_code == 200 and Payment.objects.count() == 1
    director.post(where, {**said, "act": "correct", "amount": "60", "reason": "typed a nought too many"})
    assert director.get(where).status_code == 404
    director.post(at("payment", event, 2), {"act": "void", "void-reason": "another club's team"})
    assert not Entry.objects.get(event=event, boat=1).paid
    page = director.get(at("money", event)).content.decode()
    assert "corrected by payment 2: typed a nought too many" in page and "voided: another club" in page
    back = director.post(at("payment_other", event), {**said, "amount": "-5"}).content.decode()
    assert "no more than that can be refunded" in back


def test_a_side_pot_is_added_changed_and_removed(event: Event, director: Client) -> None:
    said = {"name": "First limit", "fee": "$5", "wins": "first_limit", "shares": "60, 40"}
    assert director.post(at("pot_new", event), said).status_code == 302
    twice = director.post(at("pot_new", event), {**said, "name": "first  limit", "fee": "-5"}).content.decode()
    assert "There is a side pot First limit already" in twice and "is negative: write an amount of 0 or more" in twice
    pot = SidePot.objects.get()
    assert director.post(at("pot", event, pot.pk), {**said, "fee": "6", "act": "change"}).status_code == 302
    director.post(at("money", event), {"entry": "1", "paid": ["0", "2"], "means": "check"})
    assert till_of(event).cash.in_on["side_pot", "First limit"]
    held = director.post(at("pot", event, pot.pk), {**said, "fee": "7", "act": "change"}).content.decode()
    assert "write why the fee changes" in held
    assert director.post(at("pot", event, pot.pk), {"act": "remove"}).status_code == 200
    other = SidePot.objects.create(event=event, name="Other", fee=1, wins="total")
    assert director.post(at("pot", event, other.pk), {"act": "remove"}).status_code == 302
    assert list(SidePot.objects.values_list("name", flat=True)) == ["First limit"]


def test_a_prize_is_paid_out_and_voided(event: Event, director: Client) -> None:
    director.post(at("money", event), {"entry": "1", "paid": ["0", "1"], "means": "check"})
    page = director.get(at("pay_outs", event)).content.decode()
    assert "The result is not official" in page and "ask someone qualified" in page
    said = {"prize": "0", "means": "cash", "received_by": "A. Angler"}
    assert director.post(at("pay_outs", event), said).status_code == 302
    assert (PayOut.objects.get().kind, str(PayOut.objects.get().amount)) == ("place", "60.00")
    assert director.post(at("pay_out_void", event, 1), {"reason": "wrong boat"}).status_code == 302
    assert director.post(at("pay_outs", event), said).status_code == 302
    assert PayOut.objects.current().get().number == 3
    pdf = director.get(reverse("reports:pay_out_list", args=[event.slug]))
    assert pdf.content.startswith(b"%PDF")


def test_receipt_and_cash_up_say_the_amounts_in_the_clubs_money(event: Event, director: Client) -> None:
    where = reverse("clubs:edit", args=[event.club.slug])
    assert director.post(where, {"act": "currency", "currency": " "}).status_code == 200
    assert director.post(where, {"act": "figures", "currency": "£", "hours": "12", "degrees": ""}).status_code == 302
    director.post(at("money", event), {"entry": "1", "paid": ["0", "1"], "means": "check"})
    receipt = director.get(at("receipt", event, 1)).content.decode()
    assert "£70.00" in receipt and "Check" in receipt
    sheet = director.get(at("cash_up", event)).content.decode()
    assert "The cash-up balances." in sheet and "£180.00" in sheet
    assert director.get(at("receipt", event, 9)).status_code == 404


def test_publishing_asks_why_the_money_may_differ(event: Event, director: Client) -> None:
    director.post(at("payment_other", event), {"entry": "1", "kind": "entry_fee", "amount": "65", "means": "cash"})
    page = director.get(reverse("operations:publish", args=[event.slug])).content.decode()
    assert "The cash-up does not balance: $5.00 more" in page


def test_three_hundred_payments_ask_the_database_as_often_as_one(event: Event, director: Client) -> None:
    large = world.event("Large desk", world.pairs(150, "Large", "L", paid="yes", big_fish_pot="yes"), entry_fee="60")
    small = world.event("Small desk", world.pairs(1, "Small", "S", paid="yes", big_fish_pot="yes"), entry_fee="60")
    counts = []
    for one in (small, large):
        director.get(at("money", one))
        with CaptureQueriesContext(connection) as asked:
            assert director.get(at("money", one)).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_the_means_of_the_last_payment_stand_ready_as_at_the_desk(event: Event, director: Client) -> None:
    assert director.get(at("money", event)).context["form"].initial["means"] == "cash"
    key = director.get(at("money", event)).context["form"].initial["key"]
    director.post(at("money", event), {"key": key, "entry": "1", "paid": ["0"], "means": "check"})
    assert director.get(at("money", event)).context["form"].initial["means"] == "check"
