"""From the posting of a provisional result to version 2: the time for protests, protests, rulings, what changed since."""

import json
from datetime import timedelta
from io import StringIO
from typing import Any
from uuid import uuid4

import pytest
import world
from django.core.management import CommandError, call_command
from django.utils import timezone

from weighin.accounts.domain.roles import Role
from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.events.models import Event
from weighin.operations.queries.open_questions import CLOSE, PUBLISH, open_questions
from weighin.operations.services import publishing
from weighin.public.views.events import api_event  # noqa: F401  the address below
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.standings.models import OfficialResult, Posting, Protest, ProtestTime, Ruling
from weighin.standings.queries.protests import cases_of, minutes_of, result_state
from weighin.standings.services import post_result, publish_result
from weighin.standings.services.protests import hand_in, rule_on, set_protest_time, void_protest
from weighin.ui.kept import KEEPER

pytestmark = [pytest.mark.django_db, pytest.mark.database]
SECRET = "The bag of Ivy Secretperson was lifted"


def run(*words: Any, **options: Any) -> str:
    out = StringIO()
    call_command(*map(str, words), stdout=out, stderr=StringIO(), **options)
    return out.getvalue()


@pytest.fixture
def event() -> Event:
    slips = [
        world.slip(boat=str(boat), gross=f"{9 - boat}.50", official="R. Quill", released="15:40")
        for boat in range(1, 5)
    ]
    return world.event("Open table", world.pairs(4, paid="yes"), slips, entry_fee="60", handling="harvest")


def protest(event: Event, **said: str) -> Protest:
    return hand_in(event, {"who": "Ivy Secretperson", "matter": SECRET, "could": "lower", "boat": "1", **said}, "mara")


def ruled(event: Event, case: int = 1, **said: str) -> Ruling:
    return rule_on(
        event, case, {"outcome": "denied", "words": "Seen by two", "ruled_by": "The committee", **said}, "mara"
    )


def codes(event: Event, act: str = PUBLISH) -> list[str]:
    return [question.code for question in open_questions(event, act)]


def test_posting_starts_the_clock_and_the_public_json_says_the_state(event: Event, client: Any) -> None:
    def told() -> Any:
        KEEPER.clear()
        return json.loads(client.get(f"/api/events/{event.slug}").content)["result"]

    assert json.loads(run("cash_up", event.slug, "--json"))["state"] == "live"
    said = run("publish_result", event.slug, "--provisional")
    assert "Protests in writing until" in said
    posting = Posting.objects.get()
    assert (posting.minutes, posting.posted_by) == (30, "command line")
    until = posting.posted_at + timedelta(minutes=30)
    assert told() == {
        "state": "provisional",
        "version": None,
        "posted": posting.posted_at.isoformat(),
        "protests_until": until.isoformat(),
    }
    assert json.loads(run("cash_up", event.slug, "--json"))["state"] == "provisional"
    assert run("publish_result", event.slug, "--provisional") == said, "nothing changed: the first posting stands"
    with pytest.raises(CommandError, match="Protests are taken until.*--overrule"):
        run("publish_result", event.slug)
    assert run("publish_result", event.slug, "--overrule", "Every team signed").splitlines()[-1] == "1"
    assert told()["state"] == "official" and told()["version"] == 1
    assert told()["posted"] == posting.posted_at.isoformat()
    assert json.loads(run("cash_up", event.slug, "--json"))["state"] == "official"
    assert "Version 1" not in run("publish_result", event.slug, "--provisional")
    assert Posting.objects.count() == 1 and Event.objects.get().is_public


def test_live_pages_have_neither_a_posting_nor_an_end(event: Event, client: Any) -> None:
    from weighin.standings.services import set_public

    set_public(event, True, "mara")
    told = json.loads(client.get(f"/api/events/{event.slug}").content)["result"]
    assert told == {"state": "live", "version": None, "posted": None, "protests_until": None}


def test_an_official_result_that_was_never_posted_was_posted_in_that_moment(event: Event) -> None:
    publish_result(event, "mara")
    state = result_state(event)
    assert state.state == "official" and state.posted == state.until == OfficialResult.objects.get().published_at
    with pytest.raises(Faults, match="version 1 is official"):
        post_result(event, "mara")


def test_a_changed_result_is_posted_again_with_a_new_clock(event: Event) -> None:
    post_result(event, "mara")
    with pytest.raises(Faults, match="posted already"):
        post_result(event, "mara")
    Entry.objects.filter(boat=1).update(status=Entry.Status.DISQUALIFIED)
    set_protest_time(event, "15", "mara")
    assert post_result(event, "mara").minutes == 15 and Posting.objects.count() == 2


def test_the_time_for_protests_is_that_of_the_event_else_of_the_club(event: Event) -> None:
    assert minutes_of(event) == 30
    set_protest_time(event, "15 min".split()[0], "mara")
    set_protest_time(event, "15", "mara")
    assert ProtestTime.objects.count() == 1
    other = world.bare_event("Second", event.season)
    assert minutes_of(event) == 15 == minutes_of(other)
    for wrong in ("", "-1", "soon"):
        with pytest.raises(Faults):
            set_protest_time(event, wrong, "mara")
    set_protest_time(event, "0", "mara")
    post_result(event, "mara")
    assert not result_state(event).takes_protests


def test_the_page_says_by_the_clock_alone_that_the_time_is_over(event: Event, client: Any, monkeypatch: Any) -> None:
    post_result(event, "mara")
    page = f"/results/{event.slug}/"
    assert "Protests in writing until" in client.get(page).content.decode()
    later = timezone.now() + timedelta(minutes=31)
    monkeypatch.setattr(timezone, "now", lambda: later)
    assert "The time for protests ended" in client.get(page).content.decode(), "no write, and none is forgotten"
    assert "protest_time_runs" not in codes(event)


def test_a_protest_is_added_corrected_ruled_on_and_never_altered(event: Event) -> None:
    first = protest(event, boat="", slip="2", handed_in="2026-06-20 16:20")
    assert (first.case, first.entry.boat, first.could) == (1, 2, "lower")  # type: ignore[union-attr]
    assert first.handed_in.isoformat() == "2026-06-20T16:20:00-05:00"
    whole = protest(event, boat="")
    assert whole.case == 2 and whole.entry is None
    again = hand_in(
        event,
        {"who": "Team 3", "matter": "m", "could": "either", "reason": "Other boat", "boat": "3"},
        "mara",
        old=first,
    )
    assert again.case == 1 and [case.protest.pk for case in cases_of(event)] == [again.pk, whole.pk]
    with pytest.raises(Faults, match="reason"):
        hand_in(event, {"who": "x", "matter": "m", "could": "either"}, "mara", old=again)
    ruling = ruled(event, 1)
    with pytest.raises(Faults, match="has a ruling already"):
        ruled(event, 1)
    with pytest.raises(Faults, match="no protest 9"):
        ruled(event, 9)
    upheld = rule_on(
        event, 1, {"outcome": "upheld", "words": "w", "ruled_by": "b", "reason": "Heard again"}, "mara", old=ruling
    )
    assert [case.ruling for case in cases_of(event)] == [upheld, None]
    void_protest(whole, "Written twice", "mara")
    assert len(cases_of(event)) == 1 and Protest.objects.count() == 4
    for row in (again, ruling):
        with pytest.raises(AppendOnlyError):
            row.save()
    acts = list(
        HistoryEntry.objects.filter(act__regex="^(protest|ruling)").order_by("id").values_list("sentence", flat=True)
    )
    assert acts[0] == "Protest 1 handed in, about boat 2" and acts[1] == "Protest 2 handed in, about the whole result"
    assert "Ruling on protest 1 corrected: upheld (Heard again)" in acts and "Protest 2 voided: Written twice" in acts
    assert not any("Ivy" in sentence for sentence in acts)


def test_a_form_sent_twice_keeps_one_protest(event: Event) -> None:
    key, said = uuid4(), {"who": "Team 3", "matter": "m", "could": "either", "slip": "2"}
    assert hand_in(event, said, "mara", key).pk == hand_in(event, said, "mara", key).pk
    assert Protest.objects.count() == 1


def test_a_ruling_and_a_correction_sent_twice_are_kept_once_and_said_to_be_saved(event: Event) -> None:
    protest(event)
    desk, page = world.member(event.club, Role.DESK_OFFICIAL), f"/events/{event.slug}/results/protests/1/"
    ruling = {"act": "rule", "outcome": "denied", "words": "Seen by two", "ruled_by": "Committee"}
    correction = {"act": "correct", "who": "Team 3", "matter": "Bag", "could": "raise", "reason": "Wrong name"}
    again = ruling | {"outcome": "upheld", "reason": "Heard again"}
    for said in (ruling, again, correction):
        said["key"] = str(uuid4())
        answers = [desk.post(page, said, follow=True).content.decode() for _ in range(2)]
        assert all("The ruling on protest 1 is saved." in html or "Protest 1 is corrected." in html for html in answers)
    assert (Protest.objects.count(), Ruling.objects.count()) == (2, 2)
    other = desk.post(page, again | {"words": "Something else"}).content.decode()
    assert "saved already with other figures" in other and Ruling.objects.count() == 2


def test_a_time_to_come_is_said_as_pages_say_it(event: Event) -> None:
    with pytest.raises(Faults, match=r"Jan 1, 2199, 10:00 AM is in the future"):
        protest(event, handed_in="2199-01-01 10:00")


@pytest.mark.parametrize(
    ("said", "fields"),
    [
        ({"who": "", "matter": "", "could": ""}, {"who", "matter", "could"}),
        ({"boat": "77"}, {"boat"}),
        ({"slip": "77"}, {"slip"}),
        ({"boat": "1", "slip": "2"}, {"slip"}),
        ({"handed_in": "soon"}, {"handed_in"}),
        ({"handed_in": "2199-01-01 10:00"}, {"handed_in"}),
        ({"handed_in": "0001-01-01T00:00+14:00"}, {"handed_in"}),
        ({"handed_in": "1/1/0026 3pm"}, {"handed_in"}),
    ],
)
def test_all_faults_of_a_protest_are_said_at_once(event: Event, said: dict[str, str], fields: set[str]) -> None:
    with pytest.raises(Faults) as refused:
        protest(event, **said)
    assert {fault.field for fault in refused.value.faults} == fields
    assert not Protest.objects.exists()


def test_open_protests_hinder_the_official_result_until_ruled_on_or_overruled(event: Event) -> None:
    protest(event)
    protest(event, boat="2")
    assert codes(event).count("protest_open") == 2 == codes(event, CLOSE).count("protest_open")
    with pytest.raises(Faults) as refused:
        publishing.publish(event, "mara", "", {"protest_open_1": "Heard on Monday"})
    assert [fault.field for fault in refused.value.faults] == ["protest_open_2"]
    ruled(event, 2)
    result = publishing.publish(event, "mara", "", {"protest_open_1": "Heard on Monday"})
    assert result.overruled and result.overruled[0]["question"] == "Protest 1 is not ruled on."


def test_an_upheld_protest_that_changed_nothing_is_asked_about(event: Event) -> None:
    post_result(event, "mara")
    protest(event)
    ruled(event, outcome="upheld")
    assert "ruling_not_carried_out" in codes(event)
    Entry.objects.filter(boat=1).update(status=Entry.Status.DISQUALIFIED)
    assert "ruling_not_carried_out" not in codes(event)


def test_the_next_version_says_what_changed_in_words(event: Event) -> None:
    publish_result(event, "mara")
    Entry.objects.filter(boat=1).update(status=Entry.Status.DISQUALIFIED)
    director = world.member(event.club)
    shown = director.get(f"/events/{event.slug}/publish/").content.decode()
    assert "Boat 1, Pair 1: place 1 to disqualified" in shown
    publish_result(event, "mara", "Protest 1 upheld")
    for page in (
        director.get(f"/events/{event.slug}/results/2/"),
        world.Client().get(f"/results/{event.slug}/official/2/"),
    ):
        html = page.content.decode()
        assert "What changed since version 1" in html and "Protest 1 upheld" in html
        assert "Boat 2, Pair 2: place 2 to place 1, prizes $0.00 to $240.00, points 99 to 100." in html
    first = director.get(f"/events/{event.slug}/results/1/").content.decode()
    assert "What changed since" not in first


def test_the_public_sees_counts_and_never_names_or_words(event: Event) -> None:
    post_result(event, "mara")
    protest(event)
    protest(event, boat="2")
    ruled(event, 2)
    publishing.publish(event, "mara", "", {"protest_open_1": "Later", "protest_time_runs": "All signed"})
    crowd, base = world.Client(), f"/results/{event.slug}"
    seen = ""
    for page in ("/", "/standings/", "/official/1/", "/crowd/", "/screen/", "/rules/", "/fish/"):
        seen += crowd.get(base + page).content.decode()
    seen += crowd.get(f"/api/events/{event.slug}").content.decode()
    assert "1 protest is open." in seen and "1 protest is ruled on." in seen
    for never in ("Secretperson", "was lifted", "Seen by two", "The committee"):
        assert never not in seen
    for role, status in ((Role.WEIGH_OFFICIAL, 403), (Role.CLUB_REVIEWER, 403), (Role.DESK_OFFICIAL, 200)):
        assert world.member(event.club, role).get(f"/events/{event.slug}/results/protests/").status_code == status


def test_the_pages_write_and_rule(event: Event) -> None:
    desk, base = world.member(event.club, Role.DESK_OFFICIAL), f"/events/{event.slug}/results/protests/"
    assert "No protest." in desk.get(base).content.decode()
    assert "Write what the protest says" in desk.post(
        base, {"act": "hand-in", "who": "Team 2"}
    ).content.decode().replace("write", "Write")
    said = {
        "act": "hand-in",
        "who": "Team 2",
        "matter": "Bag lifted",
        "could": "lower",
        "boat": "1",
        "handed_in": "12:01 am",
    }
    assert desk.post(base, said).status_code == 302
    assert "One protest is open." in desk.get(base).content.decode()
    assert desk.post(base, {"act": "minutes", "minutes": "15"}).status_code == 302
    one = base + "1/"
    assert "It is about boat 1" in desk.get(one).content.decode()
    correction = {"act": "correct", "who": "Team 3", "matter": "Bag", "could": "raise", "reason": "Wrong name"}
    assert desk.post(one, {**correction, "reason": ""}).status_code == 200
    assert desk.post(one, correction).status_code == 302
    ruling = {"act": "rule", "outcome": "denied", "words": "Seen by two", "ruled_by": "Committee"}
    assert desk.post(one, {**ruling, "outcome": ""}).status_code == 200
    assert desk.post(one, ruling).status_code == 302
    assert "Every protest has a ruling." in desk.get(base).content.decode()
    assert "Correct the ruling" in desk.get(one).content.decode()
    assert desk.post(one, {"act": "void"}).status_code == 200
    assert desk.post(one, {"act": "void", "void-reason": "Written twice"}).status_code == 302
    assert desk.get(one).status_code == 404


def test_the_publish_page_posts_first(event: Event) -> None:
    director, page = world.member(event.club), f"/events/{event.slug}/publish/"
    assert "Post the provisional result first" in director.get(page).content.decode()
    html = director.post(page, {"act": "post"}, follow=True).content.decode()
    assert "Posted as provisional" in html and "Protests in writing until" in html
    assert result_state(event).state == "provisional"
    assert "Protests are taken until" in html and "The time for protests is over" not in html, "only what is so"
    public = world.stranger().get(f"/results/{event.slug}/").content.decode()
    assert "Provisional results, posted" in public and "Provisional." not in public, "the state is said once"


def test_publishing_pressed_twice_says_that_nothing_changed(event: Event) -> None:
    director, page = world.member(event.club), f"/events/{event.slug}/publish/"
    said = {question.key: "Known" for question in open_questions(event, PUBLISH)} | {"sure": "on"}
    assert director.post(page, said).status_code == 302
    html = director.post(page, said).content.decode()
    assert "Nothing changed since version 1" in html and "Version 1 is official" in html
    html = director.post(page, {"reason": " "}).content.decode()
    assert "Give the reason for the new version." in html and html.count("to go on.") == 2
    assert ", optional" not in html
    assert OfficialResult.objects.count() == 1


def test_posting_without_a_slip_only_opens_the_pages() -> None:
    event = world.event("Empty", 2)
    assert publishing.post(event, "mara").state == "live" and Event.objects.get().is_public
    html = (
        world.member(event.club).post(f"/events/{event.slug}/publish/", {"act": "post"}, follow=True).content.decode()
    )
    assert "The pages are open to everyone." in html and "Post the provisional result first" not in html


def test_what_a_side_pot_pays_is_frozen_and_a_change_of_it_is_said(event: Event) -> None:
    run("side_pot", event.slug, "Largest total", "--fee", "5", "--wins", "total")
    for boat in (1, 2):
        run("take_payment", event.slug, boat, "side_pot", "5", "--pot", "Largest total", "--means", "cash")
    assert publishing.publish(event, "mara", "", {}).side_pots == {"Largest total": {"1": "10.00"}}
    run("take_payment", event.slug, 3, "side_pot", "5", "--pot", "Largest total", "--means", "cash")
    assert publishing.publish(event, "mara", "Boat 3 had paid", {}).side_pots == {"Largest total": {"1": "15.00"}}
    html = world.Client().get(f"/results/{event.slug}/official/2/").content.decode()
    assert "Boat 1, Pair 1: prizes $250.00 to $255.00." in html
    run("check_ledger", event.slug)
    with pytest.raises(Faults, match="nothing changed"):
        publishing.publish(event, "mara", "again", {})


def test_the_days_page_says_that_a_protest_is_open(event: Event) -> None:
    protest(event)
    assert (
        "1 protest is open: write the ruling."
        in world.member(event.club).get(f"/events/{event.slug}/").content.decode()
    )


def test_the_command_writes_what_the_page_does(event: Event) -> None:
    with pytest.raises(CommandError, match="--who: this is blank.*--could: choose"):
        run("protest", event.slug, "--matter", "Bag")
    with pytest.raises(CommandError, match="no event elsewhere"):
        run("protest", "elsewhere", "--list")
    said = ("--who", "Team 2", "--matter", "Bag", "--could", "lower")
    assert run("protest", event.slug, *said, "--slip", 1).strip() == "1"
    assert run("protest", event.slug, *said).strip() == "2"
    assert (
        run("protest", event.slug, "--rule", 1, "--outcome", "denied", "--words", "w", "--ruled-by", "b").strip() == "1"
    )
    with pytest.raises(CommandError, match="has a ruling already"):
        run("protest", event.slug, "--rule", 1, "--outcome", "denied", "--words", "w", "--ruled-by", "b")
    assert run("protest", event.slug, "--list").splitlines() == [
        "Protest 1, about boat 1: denied",
        "Protest 2, about the whole result: open",
    ]
