"""Prizes wait for the protests that can change them and for no others; the list to read out adds up with the cash-up."""

import json
import random
from decimal import Decimal
from io import StringIO
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.registration.models import PayeeNotice, PayOut
from weighin.registration.pages.pay_outs import payees_said, prize_places, prize_rows, to_read_out, too_much_said
from weighin.registration.queries.cash_up import CashUp, cash_up_of
from weighin.registration.services.pay_outs import list_payees_above, pay_out
from weighin.reports.writers.pdf.pay_outs_pdf import pay_outs_pdf
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.standings.services.protests import hand_in, rule_on

pytestmark = [pytest.mark.django_db, pytest.mark.database]
PAYS = {"means": "cash", "received_by": "A. Quill"}


def run(*words: Any, **options: Any) -> str:
    out = StringIO()
    call_command(*map(str, words), stdout=out, stderr=StringIO(), **options)
    return out.getvalue()


def paid_event(name: str = "Money", teams: int = 6, places: str = "3", **more: Any) -> Event:
    """Boats ranked by their number, all paid, all but boat 6 in the big fish pot, which boat 3 wins."""
    slips = [
        world.slip(boat=str(boat), gross=f"{20 - boat}.50", big_fish="2.50" if boat == 3 else "1.50")
        for boat in range(1, teams + 1)
    ]
    rows = world.pairs(teams, paid="yes", big_fish_pot="yes")
    rows[5 if teams > 5 else 0]["big_fish_pot"] = "no"
    rules = {"places_paid": places, "big_fish_pot_fee": "10"}
    return world.event(name, rows, slips, rules=rules, entry_fee="60", handling="harvest", **more)


def protest(event: Event, **said: str) -> None:
    hand_in(event, {"who": "Team 9", "matter": "Bag", "could": "lower", **said}, "mara")


def waits(event: Event) -> dict[tuple[int, str], tuple[int, ...]]:
    return {(due.boat, due.kind): due.waits for due in cash_up_of(event).due if due.waits}


@pytest.mark.parametrize(
    ("boat", "could", "held"),
    [
        ("2", "lower", {(2, "place"), (3, "place")}),
        ("2", "raise", {(1, "place"), (2, "place"), (3, "big_fish_pot")}),
        ("3", "lower", {(3, "place"), (3, "big_fish_pot")}),
        ("5", "lower", set()),
        ("6", "raise", {(1, "place"), (2, "place"), (3, "place")}),
        ("", "lower", {(1, "place"), (2, "place"), (3, "place"), (3, "big_fish_pot")}),
        ("1", "either", {(1, "place"), (2, "place"), (3, "place"), (3, "big_fish_pot")}),
    ],
)
def test_only_what_a_protest_can_change_waits(boat: str, could: str, held: set[tuple[int, str]]) -> None:
    event = paid_event()
    protest(event, boat=boat, could=could)
    assert set(waits(event)) == held
    rule_on(event, 1, {"outcome": "denied", "words": "w", "ruled_by": "Committee"}, "mara")
    assert not waits(event)


def test_nothing_that_a_disqualification_changes_is_missed() -> None:
    """Whoever is disqualified: each prize that is another then, or gone, had waited for a protest against that team."""
    for places in ("1", "3", "6", "1 per 2"):
        event = paid_event(f"Places {places}", places=places)
        before = {(due.boat, due.kind): due.amount for due in cash_up_of(event).due}
        for boat in range(1, 7):
            protest(event, boat=str(boat))
            held = {prize for prize, cases in waits(event).items() if boat in cases}
            Entry.objects.filter(event=event, boat=boat).update(status=Entry.Status.DISQUALIFIED)
            after = {(due.boat, due.kind): due.amount for due in cash_up_of(event).due}
            Entry.objects.filter(event=event, boat=boat).update(status=Entry.Status.ENTERED)
            changed = {prize for prize in before if before[prize] != after.get(prize)}
            assert changed <= held, (places, boat)


def test_a_team_that_has_not_paid_holds_no_prize() -> None:
    event = paid_event()
    Entry.objects.filter(event=event, boat=2).update(paid=False)
    protest(event, boat="2", could="either")
    assert ("place" not in {kind for _, kind in waits(event)}) and not waits(event)


def test_a_prize_that_waits_is_paid_only_with_a_reason() -> None:
    event = paid_event()
    protest(event, boat="2")
    prize = {"entry": "2", "kind": "place", **PAYS}
    with pytest.raises(Faults, match="waits for protest 1") as refused:
        pay_out(event, prize, "mara")
    assert refused.value.faults[0].field == "reason" and not PayOut.objects.exists()
    with pytest.raises(CommandError, match="--overrule: the prize of boat 2 waits"):
        run("pay_out", event.slug, 2, "place", "--means", "cash", "--received-by", "A. Quill")
    run("pay_out", event.slug, 1, "place", "--means", "cash", "--received-by", "A. Quill")
    why = ("--overrule", "They leave the state tonight")
    run("pay_out", event.slug, 2, "place", "--means", "cash", "--received-by", "A. Quill", *why)
    assert "They leave the state tonight" in HistoryEntry.objects.get(act="pay_out.recorded", details__entry=2).sentence


def test_the_page_shows_what_waits_and_takes_the_reason() -> None:
    event = paid_event()
    desk, page = world.member(event.club, Role.DESK_OFFICIAL), f"/events/{event.slug}/money/pay-outs/"
    assert "can change it" not in desk.get(page).content.decode()
    protest(event, boat="3")
    html = desk.get(page).content.decode()
    assert "waits for protests.</b>" in html and "waits for protest 1" in html
    prize = {"prize": "2", **PAYS}
    assert "have it ruled on first" in desk.post(page, prize).content.decode()
    assert desk.post(page, {**prize, "reason": "Agreed by all"}).status_code == 302
    assert "paid, cash, to A. Quill" in desk.get(page).content.decode()


def test_the_page_lists_prizes_as_it_lists_places() -> None:
    event = paid_event()
    protest(event, boat="3")
    run("pay_out", event.slug, 1, "place", "--means", "cash", "--received-by", "A. Quill")
    found = prize_places(prize_rows(cash_up_of(event)))
    assert [column.look for column in found.columns] == ["place", "boat", "team", "num", "said", "total"]
    cells = [[str(cell) for cell in row.cells] for row in found.rows]
    assert cells[0] == ["1", "1", "Pair 1", "$180.00", "paid, cash, to A. Quill", "$180.00"]
    assert cells[2][:3] == ["3", "3", "Pair 3"] and cells[2][4] == "<b>waits for protest 1</b>"
    assert cells[3][0] == '<span class="word label">Big fish pot</span>' and cells[3][-1] == "$50.00"
    html = world.member(event.club).get(f"/events/{event.slug}/money/pay-outs/").content.decode()
    assert 'class="ruled ledger prizes"' in html and "weighin/css/places" in html


def test_what_was_paid_too_much_is_to_be_got_back() -> None:
    event = paid_event()
    run("pay_out", event.slug, 1, "place", "--means", "cash", "--received-by", "A. Quill")
    assert not too_much_said(cash_up_of(event))
    Entry.objects.filter(event=event, boat=1).update(status=Entry.Status.DISQUALIFIED)
    assert too_much_said(cash_up_of(event)) == ["Boat 1, Pair 1: $180.00 too much for Place."]
    html = world.member(event.club).get(f"/events/{event.slug}/money/pay-outs/").content.decode()
    assert "Paid too much:" in html


def text_of(pdf: bytes) -> str:
    from io import BytesIO

    from pypdf import PdfReader

    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)


def test_the_list_is_read_from_the_last_place_up() -> None:
    event = paid_event()
    protest(event, boat="3")
    run("pay_out", event.slug, 1, "place", "--means", "check", "--received-by", "A. Quill")
    rows = to_read_out(cash_up_of(event))
    assert [row[:4] for row in rows] == [
        (3, "Pair 3", "Big fish pot", "$50.00"),
        (3, "Pair 3", "Place 3", "$60.00"),
        (2, "Pair 2", "Place 2", "$120.00"),
        (1, "Pair 1", "Place 1", "$180.00"),
        ("", "In all", "", "$410.00"),
    ]
    assert [row[4] for row in rows] == [
        "waits for protest 1",
        "waits for protest 1",
        "",
        "paid, check, to A. Quill",
        "",
    ]
    said = text_of(pay_outs_pdf(event))
    assert said.index("Place 3") < said.index("Place 2") < said.index("Place 1") and "$410.00" in said


def cents(rows: list[tuple[Any, ...]]) -> Decimal:
    return sum((Decimal(str(row[3]).replace("$", "").replace(",", "")) for row in rows), Decimal(0))


def test_the_list_adds_up_with_the_cash_up_to_the_cent_on_random_events() -> None:
    """What is read out, with what nobody wins, is the purse and the pots; ties, unpaid teams and shares by chance."""
    chance = random.Random(20260621)
    for number in range(12):
        boats = chance.randrange(2, 9)
        rows = [
            {**row, "paid": chance.choice(("yes", "yes", "no")), "big_fish_pot": chance.choice(("yes", "no"))}
            for row in world.pairs(boats, f"T{number} pair", f"T{number} angler")
        ]
        slips = [
            world.slip(
                boat=str(boat), gross=chance.choice(("7.50", "8.50", "9.25")), big_fish=chance.choice(("1.50", "1.75"))
            )
            for boat in range(1, boats + 1)
            if chance.random() < 0.8
        ]
        rules = {
            "places_paid": chance.choice(("1", "3", "1 per 2")),
            "payback_percent": chance.choice(("100", "80", "33")),
            "place_shares": chance.choice(("", "50, 30, 20")),
            "rounding": chance.choice(("1.00", "5.00", "0.01")),
            "ties": chance.choice(("share", "big_fish, share")),
            "big_fish_pot_fee": "7.77",
            "big_fish_shares": chance.choice(("100", "60, 40")),
        }
        rules = {key: value for key, value in rules.items() if value}
        event = world.event(f"Random {number}", rows, slips, rules=rules, entry_fee="61.37", added_money="13.01")
        run("side_pot", event.slug, "Youth", "--fee", "5.55", "--wins", "total", "--shares", "60, 40")
        for boat in range(1, boats + 1):
            if chance.random() < 0.5:
                run("take_payment", event.slug, boat, "side_pot", "5.55", "--pot", "Youth", "--means", "cash")
        found: CashUp = cash_up_of(event)
        told = json.loads(run("cash_up", event.slug, "--json"))
        read = to_read_out(found)
        whole = Decimal(told["purse"]) + sum(map(Decimal, told["pots"].values()))
        due = sum((Decimal(one["amount"]) for one in told["due"]), Decimal(0))
        assert cents(read[:-1]) == due == whole - Decimal(told["unclaimed"])
        assert not read or cents(read[-1:]) == due
        assert Decimal(told["difference"]) == 0
        if read:
            assert cents(read[-1:]) == sum((one.left for one in found.due), Decimal(0))


def test_teams_above_the_clubs_sum_are_listed_over_the_year() -> None:
    first = paid_event("First")
    assert payees_said(cash_up_of(first)) == []
    run("pay_out", first.slug, 1, "place", "--means", "cash", "--received-by", "A. Quill")
    second = paid_event("Second")
    director, page = world.member(second.club), f"/events/{second.slug}/money/pay-outs/"
    assert director.post(page, {"act": "payees", "above": "much"}).status_code == 200
    assert director.post(page, {"act": "payees", "above": "$300"}).status_code == 302
    assert PayeeNotice.objects.get().above == 300
    assert payees_said(cash_up_of(second)) == ["Pair 1: $360.00 in 2026."]
    html = director.get(page).content.decode()
    assert "Paid more than $300.00 this year" in html and "Pair 1: $360.00 in 2026." in html
    assert "Pair 1: $360.00 in 2026." in text_of(pay_outs_pdf(second))
    desk = world.member(second.club, Role.DESK_OFFICIAL)
    assert desk.post(page, {"act": "payees", "above": ""}).status_code == 403
    list_payees_above(second.club, "", "mara")
    assert payees_said(cash_up_of(second)) == []
