"""``verify_result`` and the public page say three things of a proof apart: digest, result worked out again, what is kept."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from django.test import Client
from django.utils import timezone
from proof.test_recomputed import by_the_script

from weighin.events.models import Event
from weighin.operations.services import checking
from weighin.proof.domain.canonical import digest_of
from weighin.proof.queries.document import proof_document
from weighin.proof.queries.recomputed import recomputed
from weighin.slips.services.slips import record_slip
from weighin.standings.services import publish_result, set_public, start_embargo

pytestmark = pytest.mark.django_db
Proof = dict[str, Any]


@pytest.fixture
def event() -> Event:
    event = world.plain()
    set_public(event, True, "mara")
    return event


def verified(proof: Proof, folder: Path, capsys: Any) -> tuple[int, str]:
    file = folder / "proof.json"
    file.write_text(json.dumps(proof), encoding="utf-8")
    capsys.readouterr()
    try:
        call_command("verify_result", file)
    except SystemExit as left:
        return int(left.code or 0), capsys.readouterr().out
    return 0, capsys.readouterr().out


def again(proof: Proof) -> Proof:
    """The proof with the digest of what it says now, as a forger would leave it."""
    return {**proof, "digest": digest_of(proof)}


def test_an_official_version_and_one_that_is_none_yet(event: Event, tmp_path: Path, capsys: Any) -> None:
    code, said = verified(proof_document(event), tmp_path, capsys)
    assert code == 0 and "The digest is that of the file." in said
    assert "every place, weight, prize and point is the same" in said and "No official result yet" in said
    publish_result(event, "mara")
    proof = proof_document(event)
    code, said = verified(proof, tmp_path, capsys)
    assert code == 0 and "proof.json is official result 1 of Plain event." in said
    record_slip(event, world.slip(boat="5", fish="1", alive="1", gross="0.60"), "mara")
    code, said = verified(proof, tmp_path, capsys)
    assert code == 0 and "is official result 1" in said


def test_a_proof_that_names_no_version_is_not_said_to_be_the_first(event: Event, tmp_path: Path, capsys: Any) -> None:
    before = proof_document(event)
    publish_result(event, "mara")
    code, said = verified(before, tmp_path, capsys)
    assert code == 0 and "says what the newest official result of Plain event says, and was made before it" in said
    record_slip(event, world.slip(boat="5", fish="1", alive="1", gross="0.60"), "mara")
    code, said = verified(proof_document(event), tmp_path, capsys)
    assert code == 0 and "is no official result of Plain event: there is another" in said
    code, said = verified(before, tmp_path, capsys)
    assert code == 0 and "there is another" in said and "No official result yet" not in said
    call_command("verify_result", tmp_path / "proof.json")
    assert capsys.readouterr().err == "1 slip was kept since.\n"


def lighter(proof: Proof) -> None:
    proof["slips"][2]["gross"] = "5.00"


def richer(proof: Proof) -> None:
    proof["result"]["standings"][0]["payout"] = "999.00"


CHANGES: list[tuple[Callable[[Proof], Any], str, str]] = [
    # what is altered, what the recomputation says, what the site says
    (lighter, "boat 2: ", "slip 3: gross 5.00 in the file, 5.25 here"),
    (richer, "boat 2: payout 999.00 in the file", "boat 2: payout 999.00 in the file"),
    (lambda proof: proof["teams"][0].update(paid=False), "the purse: paid entries 5 in the file, 4", "team of boat 1: paid False in the file, True here"),
    (lambda proof: proof["result"]["standings"].reverse(), "another order", "another order"),
    (lambda proof: proof["slips"][0].update(fish="five"), "slip 1: it cannot be read", "slip 1: fish five in the file, 5 here"),
    (lambda proof: proof["rules"].update(fish_limit="4"), "worked out again", "the rule sheet: fish limit 4 in the file, 5 here"),
    (lambda proof: proof["rules"].update(fish_limit="x"), "the rules cannot be read", "the rule sheet: fish limit x"),
    (lambda proof: proof["event"].update(time_zone="Nowhere"), "time zone", "time zone Nowhere in the file"),
    (lambda proof: proof["ledger"].update(head="0" * 64), "the same", "made from other slips than those that are kept"),
    (lambda proof: proof["result"].update(version=3), "the same", "there is no official result 3"),
    (lambda proof: proof["event"].update(slug="elsewhere"), "the same", "elsewhere is not kept here"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "alone", "kept"), CHANGES)
def test_a_tampered_proof_is_told_by_its_rows(
    event: Event, tmp_path: Path, capsys: Any, change: Callable[[Proof], Any], alone: str, kept: str
) -> None:
    publish_result(event, "mara")
    proof = json.loads(json.dumps(proof_document(event)))
    change(proof)
    code, said = verified(proof, tmp_path, capsys)
    assert code == 1 and alone in said and kept in said
    code, said = verified(again(proof), tmp_path, capsys)
    assert code == 1 and "The digest is that of the file." in said and kept in said


def test_the_digest_alone_is_said(event: Event, tmp_path: Path, capsys: Any) -> None:
    proof = {**proof_document(event), "digest": "0" * 64}
    code, said = verified(proof, tmp_path, capsys)
    assert code == 1 and "altered after it was made" in said and "every place, weight, prize" in said


def test_the_script_names_the_same_rows(event: Event) -> None:
    proofs = []
    for change, _, _ in CHANGES[:8]:
        proof = json.loads(json.dumps(proof_document(event)))
        change(proof)
        proofs.append(proof)
    said = [[line["what"] for line in found["differs"]] for found in by_the_script(proofs)]
    assert all(said) and all(not found["digest"]["holds"] for found in by_the_script(proofs))
    assert "boat 2" in said[0] and said[1] == ["boat 2"] and "the purse" in said[2] and said[3] == ["the list"]
    assert said[4][0] == "slip 1" and said[6] == said[7] == ["the event, its rules or its clock"]


@pytest.mark.parametrize("figure", ["٣", "１", "1_0", " 1", "+1", "1e1"])
def test_a_figure_is_one_for_the_command_and_the_script_or_for_neither(event: Event, figure: str) -> None:
    proof = json.loads(json.dumps(proof_document(event)))
    proof["slips"][0]["tare"] = figure
    (found,) = by_the_script([proof])
    assert found["differs"][0]["what"] == "slip 1" and recomputed(proof).differs[0].startswith(
        "slip 1: it cannot be read"
    )


@pytest.mark.parametrize("part", ["event", "slips", "result", "ledger", "teams"])
def test_a_proof_without_its_parts_is_refused(event: Event, tmp_path: Path, part: str) -> None:
    proof = proof_document(event)
    del proof[part]
    (tmp_path / "x.json").write_text(json.dumps(proof))
    with pytest.raises(CommandError, match="parts of it are missing"):
        call_command("verify_result", tmp_path / "x.json")


def brought(proof: Proof, **headers: str) -> Any:
    checking.forget()
    file = SimpleUploadedFile("proof.json", json.dumps(proof).encode())
    return Client().post("/check/", {"file": file}, headers=headers)


def test_anybody_may_bring_a_proof_to_the_site(event: Event) -> None:
    publish_result(event, "mara")
    proof = json.loads(json.dumps(proof_document(event)))
    page = " ".join(brought(proof).content.decode().split())
    assert "is official result 1 of Plain event" in page and "The digest is that of the file." in page
    assert brought(proof, accept="application/json").json() == {"finding": "proof.json is official result 1 of Plain event.", "differs": []}  # fmt: skip
    lighter(proof)
    told = brought(proof, accept="application/json").json()
    assert told["differs"] == ["slip 3: gross 5.00 in the file, 5.25 here"]
    page = brought(proof).content.decode()
    assert "slip 3: gross 5.00 in the file" in page and "altered after it was made" in page
    assert brought({"format": "weighin-proof-1"}, accept="application/json").json()["differs"] == []


def test_of_what_is_held_back_the_site_tells_nothing(event: Event) -> None:
    start_embargo(event, timezone.now(), "mara")
    record_slip(event, world.slip(boat="5", fish="1", alive="1", gross="0.60"), "mara")
    told = brought(proof_document(event), accept="application/json").json()
    assert told["differs"] == ["it was made from other slips than those that are kept"]
