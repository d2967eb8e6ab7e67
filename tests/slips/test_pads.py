"""Paper pads: numbers stand on one paper only, keep their number and time when entered, and are missing until accounted for."""

import io
import uuid
from zoneinfo import ZoneInfo

import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import translation
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.models import PaperNumber, WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.slips.queries.pads import in_runs, missing_numbers, papers_of
from weighin.slips.queries.slips import slips
from weighin.slips.services.pads import enter_paper, hand_out, say_unused, take_back
from weighin.slips.services.slips import correct_slip

pytestmark = pytest.mark.django_db
WRITTEN = {"boat": "1", "day": "1", "fish": "0", "alive": "0", "dead": "0", "official": "Ash", "weighed": "15:41"}


@pytest.fixture
def event() -> Event:
    found = world.large(3)
    hand_out(found, "Blue", "101", "110", "Ash", "test")
    return found


def test_a_paper_slip_keeps_its_number_and_its_time(event: Event) -> None:
    slip = enter_paper(event, WRITTEN, "103", "test", uuid.uuid4())
    assert papers_of(event, [slip]) == {slip.pk: "paper slip 103 of set Blue"} and slip.weighed is not None
    assert slip.weighed.astimezone(ZoneInfo(event.time_zone)).strftime("%H:%M") == "15:41"
    assert 103 not in missing_numbers(event) and len(missing_numbers(event)) == 9
    assert not breaks(slips(event).order_by("position"))
    assert HistoryEntry.objects.filter(sentence=f"Paper slip 103 entered as slip {slip.number}").exists()


def test_sent_twice_it_is_entered_once(event: Event) -> None:
    key = uuid.uuid4()
    first, again = (enter_paper(event, WRITTEN, "103", "test", key) for _ in range(2))
    assert first.pk == again.pk and PaperNumber.objects.count() == 1


@pytest.mark.parametrize("paper", ["103", "99", "111", "x", "-1", "²", "0", "9999999"])
def test_a_number_that_is_used_or_no_pads_changes_nothing(event: Event, paper: str) -> None:
    enter_paper(event, WRITTEN, "103", "test", uuid.uuid4())
    before = WeighSlip.objects.count()
    with pytest.raises(Faults) as found:
        enter_paper(event, {**WRITTEN, "boat": "2"}, paper, "test", uuid.uuid4())
    assert [fault.field for fault in found.value.faults] == ["paper_number"]
    assert WeighSlip.objects.count() == before and PaperNumber.objects.count() == 1


def test_spoiled_and_blank_numbers_are_accounted_for_and_can_be_taken_back(event: Event) -> None:
    say_unused(event, "101", "", "spoiled", "Rain", "test")
    say_unused(event, "105", "110", "blank", "", "test")
    assert missing_numbers(event) == [102, 103, 104]
    with pytest.raises(Faults):
        enter_paper(event, WRITTEN, "101", "test", uuid.uuid4())
    take_back(event, 101, "It was 102", "test")
    assert missing_numbers(event) == [101, 102, 103, 104]
    enter_paper(event, WRITTEN, "101", "test", uuid.uuid4())
    assert missing_numbers(event) == [102, 103, 104]


@pytest.mark.parametrize(
    ("values", "field"),
    [
        (("102", "", "spoiled", ""), "reason"),
        (("102", "", "eaten", "x"), "became"),
        (("99", "", "blank", ""), "first"),
        (("105", "104", "blank", ""), "last"),
        (("108", "112", "blank", ""), "last"),
    ],
)
def test_what_cannot_be_said_is_refused(event: Event, values: tuple[str, str, str, str], field: str) -> None:
    with pytest.raises(Faults) as found:
        say_unused(event, *values, "test")
    assert found.value.faults[0].field == field and not PaperNumber.objects.exists()


@pytest.mark.parametrize(("first", "last"), [("110", "120"), ("1", "500"), ("5", "4"), ("", "9"), ("x", "9")])
def test_pads_do_not_share_numbers(event: Event, first: str, last: str) -> None:
    with pytest.raises(Faults):
        hand_out(event, "Red", first, last, "Bo", "test")
    assert event.paper_pads.count() == 1


def test_rows_are_only_added(event: Event) -> None:
    with pytest.raises(AppendOnlyError):
        event.paper_pads.all().update(name="Red")


def test_the_page_says_what_is_missing_and_prints_the_pad(event: Event) -> None:
    client = world.member(event.club)
    page = reverse("slips:pads", args=[event.slug])
    assert "Numbers 101 to 110 of set Blue are missing." in client.get(page).content.decode()
    said = {"act": "unused", "first": "101", "last": "108", "became": "blank", "reason": ""}
    assert client.post(page, said).status_code == 302
    assert "Numbers 109 and 110 of set Blue are missing." in client.get(page).content.decode()
    assert client.post(page, {"act": "take-back", "number": "101", "reason": "Found"}).status_code == 302
    assert "Numbers 101, 109 and 110 of set Blue are missing." in client.get(page).content.decode()
    assert "already" in client.post(page, said | {"first": "102"}).content.decode()
    pad = event.paper_pads.get()
    made = client.get(reverse("reports:pad_pdf", args=[event.slug, pad.pk]))
    pages = [p.extract_text() for p in PdfReader(io.BytesIO(made.content)).pages]
    assert len(pages) == 3 and all(str(n) in " ".join(pages) for n in range(101, 111))


def test_the_form_of_a_new_slip_takes_the_papers_number(event: Event) -> None:
    client = world.member(event.club)
    page = reverse("slips:slips_new", args=[event.slug])
    assert "paper_number" in client.get(page).content.decode()
    said = {**WRITTEN, "id": str(uuid.uuid4()), "paper_number": "104"}
    assert client.post(page, said).status_code == 302
    slip = slips(event).order_by("-position")[0]
    shown = client.get(reverse("slips:slip", args=[event.slug, slip.number])).content.decode()
    assert "paper slip 104 of set Blue</a>" in shown


def test_a_correction_still_tells_of_the_paper_in_its_history(event: Event) -> None:
    slip = enter_paper(event, WRITTEN, "103", "test", uuid.uuid4())
    mended = correct_slip(slip, {**WRITTEN, "reason": "Read again"}, "test")
    client = world.member(event.club, Role.CLUB_REVIEWER)
    shown = client.get(reverse("slips:slip", args=[event.slug, mended.number])).content.decode()
    assert "by test, from paper slip 103 of set Blue." in shown and "Entered from <a" not in shown


@pytest.mark.parametrize(("role", "writes"), [(Role.WEIGH_OFFICIAL, True), (Role.CLUB_REVIEWER, False)])
def test_whoever_writes_slips_writes_pads_and_members_read_them(event: Event, role: Role, writes: bool) -> None:
    client = world.member(event.club, role)
    page = reverse("slips:pads", args=[event.slug])
    assert ("Add the paper slips" in client.get(page).content.decode()) == writes
    said = {"act": "hand-out", "name": "Red", "first": "201", "last": "204", "handed_to": "Bo"}
    assert client.post(page, said).status_code == (302 if writes else 403)
    assert event.paper_pads.count() == (2 if writes else 1)


def test_the_page_asks_as_much_for_many_numbers_as_for_one(event: Event) -> None:
    client = world.member(event.club)
    page = reverse("slips:pads", args=[event.slug])
    counts = []
    for turn in range(2):
        enter_paper(event, {**WRITTEN, "boat": str(turn + 1)}, str(101 + turn), "test", uuid.uuid4())
        with CaptureQueriesContext(connection) as asked:
            client.get(page)
        counts.append(len(asked))
        hand_out(event, f"Red {turn}", str(201 + 40 * turn), str(240 + 40 * turn), "Bo", "test")
        say_unused(event, str(201 + 40 * turn), str(230 + 40 * turn), "blank", "", "test")
    assert counts[0] == counts[1]


def test_runs_of_numbers() -> None:
    assert in_runs([]) == "" and in_runs([4]) == "4" and in_runs([3, 1, 2, 9]) == "1 to 3 and 9"
    with translation.override("es"):
        assert in_runs([3, 1, 2, 7, 9]) == "1 a 3, 7 y 9"
