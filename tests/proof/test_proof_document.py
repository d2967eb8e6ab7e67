"""The proof that the site publishes: its form, its digest, and that it is enough to work the result out again."""

import json
from hashlib import sha256
from typing import Any

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone
from proof.test_recomputed import by_the_script, unlike
from public.test_openapi import fits
from second_reading.drawing.generate import random_event

from weighin.events.models import Event
from weighin.proof.domain.canonical import canonical
from weighin.proof.queries.document import proof_document
from weighin.proof.queries.recomputed import recomputed
from weighin.registration.services.payments import take_payment
from weighin.registration.services.side_pots import declare_side_pot
from weighin.rules.sheet.keys import KEYS
from weighin.slips.services.slips import correct_slip, record_slip, void_slip
from weighin.standings.services import publish_result, set_public, start_embargo
from weighin.ui.kept import KEEPER

pytestmark = pytest.mark.django_db


def published(event: Event) -> dict[str, Any]:
    KEEPER.clear()
    answer = Client().get(f"/api/events/{event.slug}/proof")
    assert answer.status_code == 200 and answer["Content-Type"] == "application/json"
    return dict(json.loads(answer.content))


@pytest.fixture
def event() -> Event:
    event = world.plain()
    set_public(event, True, "mara")
    return event


def test_it_fits_its_schema_and_holds_no_text_or_name_of_a_person(event: Event) -> None:
    slip = event.slips.get(number=5)
    correct_slip(slip, {**world.slip(boat="4", day="1", extra_penalty="0.50", extra_penalty_reason="no life jacket", note="Ruled by Ann"), "disqualified_reason": "left the water", "reason": "heard Ann"}, "mara")  # fmt: skip
    proof = published(event)
    fits("Proof", proof)
    text = json.dumps(proof)
    assert not any(word in text for word in ("Angler", "life jacket", "Ann", "left the water", "R. Quill", "misread"))
    assert proof["slips"][-1]["disqualified"] is True and proof["slips"][-1]["replaces"] == 5
    assert list(proof["rules"]) == [key.name for key in KEYS]
    assert proof["rules"]["boat_limit"] is None and proof["rules"]["points_no_fish"] == "0"


def test_the_digest_is_of_all_but_itself_and_the_version(event: Event) -> None:
    before = published(event)
    bound = {name: part for name, part in before.items() if name != "digest"}
    bound["result"] = {name: part for name, part in bound["result"].items() if name != "version"}
    plain = json.dumps(bound, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    assert before["digest"] == sha256(plain).hexdigest() and before["result"]["version"] is None
    publish_result(event, "mara")
    after = published(event)
    assert after["result"]["version"] == 1 and after["digest"] == before["digest"]
    record_slip(event, world.slip(boat="5", fish="1", alive="1", gross="0.60"), "mara")
    assert published(event)["result"]["version"] is None and published(event)["digest"] != before["digest"]


def test_canonical_json_to_the_byte() -> None:
    value = {"b": ["é湖🎣\x7f", '\x07\n"\\/', 1, 2.5, None, True], "a": {"z": 0, "B": -1}}
    assert canonical(value) == '{"a":{"B":-1,"z":0},"b":["é湖🎣\x7f","\\u0007\\n\\"\\\\/",1,2.5,null,true]}'.encode()


def test_slips_before_a_cut_keep_their_first_readings_and_voids_are_there(event: Event) -> None:
    rows = {row["slip"]: row for row in published(event)["slips"]}
    assert 2 in rows and rows[3]["replaces"] == 2
    slip = void_slip(event.slips.get(number=4), "not theirs", "mara")
    row = next(row for row in published(event)["slips"] if row["slip"] == slip.number)
    assert row == {"slip": slip.number, "day": 1, "boat": 3, "replaces": 4, "void": True}


def test_without_a_cut_replaced_slips_are_left_out_and_both_of_a_doubled_day_are_there() -> None:
    event = world.event(slips=[world.slip(boat="1"), world.slip(boat="2", gross="9.10")])
    correct_slip(event.slips.get(number=1), {**world.slip(boat="1", gross="7.00"), "reason": "misread"}, "mara")
    record_slip(event, world.slip(boat="2", gross="9.00"), "mara")
    rows = proof_document(event)["slips"]
    assert [(row["slip"], row["boat"], row["replaces"]) for row in rows] == [(2, 2, None), (3, 1, 1), (4, 2, None)]


def test_weights_are_pounds_and_times_are_written_as_in_the_workbook() -> None:
    event = world.event(
        slips=[world.slip(boat="1", gross="9-07.5", big_fish="1-08", checked_in="15:02:10", excused_minutes="2.5")],
        weight_unit="lb-oz",
    )
    row = proof_document(event)["slips"][0]
    assert (row["gross"], row["big_fish"], row["tare"]) == ("9.46875", "1.5000", None)
    assert (row["checked_in"], row["excused_minutes"], row["largest_weights"]) == ("15:02:10", 2.5, [])


def test_side_pots_and_check_ins() -> None:
    event = world.event("Pots", world.pairs(3, paid="yes"), [world.slip(boat=str(n), gross=f"{n + 5}.00") for n in (1, 2, 3)], entry_fee="60.00",
                        more={"Check-ins": [{"day": "1", "boat": "1", "word": "at the ramp"}, {"day": "1", "boat": "2", "checked_in": "15:03"}]})  # fmt: skip
    declare_side_pot(event, {"name": "Heavy", "fee": "5.00", "wins": "total", "shares": "60, 40"}, "mara")
    for boat in ("1", "2"):
        said = {"entry": boat, "kind": "side_pot", "pot": "Heavy", "amount": "5.00", "means": "cash"}
        take_payment(event, said, "mara")
    proof = proof_document(event)
    assert proof["side_pots"] == [{"name": "Heavy", "fee": "5.00", "wins": "total", "shares": "60, 40", "paid": [1, 2]}]
    assert proof["checkins"] == [
        {"day": 1, "boat": 2, "checked_in": "15:03", "minutes_late": None, "excused_minutes": None}
    ]
    paid = [{"boat": 1, "amount": "6.00"}, {"boat": 2, "amount": "4.00"}]
    assert proof["result"]["side_pots"] == [{"name": "Heavy", "amount": "10.00", "unclaimed": "0.00", "payouts": paid}]
    assert recomputed(proof).differs == () and unlike(proof) == []


def test_a_published_proof_is_enough_to_work_the_result_out_again_three_ways() -> None:
    proofs = [proof_document(world.event_of(random_event(seed))) for seed in range(0, 60, 4)]
    for seed, (proof, found) in enumerate(zip(proofs, by_the_script(proofs), strict=True)):
        kept = json.loads(json.dumps(proof))
        assert recomputed(kept).digest_holds and recomputed(kept).differs == (), seed
        assert found["digest"]["holds"] and found["differs"] == [], seed
        assert unlike(kept) == [], seed


def test_it_is_there_for_published_events_alone_and_not_while_places_are_held_back(event: Event) -> None:
    start_embargo(event, timezone.now(), "mara")
    KEEPER.clear()
    for address in (f"/api/events/{event.slug}/proof", f"/results/{event.slug}/check.html"):
        assert Client().get(address).status_code == 404
    page = Client().get(f"/results/{event.slug}/check/").content.decode()
    assert "New weights are not shown yet." in page and 'id="proof"' not in page
    set_public(event, False, "mara")
    KEEPER.clear()
    for end in ("proof", "check/"):
        start = "api/events" if end == "proof" else "results"
        assert Client().get(f"/{start}/{event.slug}/{end}").status_code == 404


def test_it_says_that_nothing_changed_by_its_entity_tag(event: Event) -> None:
    answer = Client().get(f"/api/events/{event.slug}/proof")
    again = Client().get(f"/api/events/{event.slug}/proof", headers={"If-None-Match": answer["ETag"]})
    assert again.status_code == 304


def test_it_asks_as_often_for_three_boats_as_for_forty() -> None:
    counts = []
    for boats in (3, 40):
        event = world.large(boats, f"Large {boats}")
        with CaptureQueriesContext(
            connection,
        ) as asked:
            proof_document(event)
        counts.append(len(asked))
    assert counts[0] == counts[1]
