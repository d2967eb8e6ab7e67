"""Whoever can write the database alters something behind the site's back: the check names it."""

import io
from collections.abc import Callable
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from django.db import connection
from django.urls import reverse
from pypdf import PdfReader

from weighin.audit.database.triggers import append_only_tables, install, remove
from weighin.audit.domain.lines import digest, next_link
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.events.services.rule_sheet import change_rules
from weighin.operations.queries.ledgers import Ledger, ledger_of, other_histories
from weighin.operations.services.chaining import chain_histories
from weighin.reports.files.event import event_file
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import change_entry, remove_entry
from weighin.slips.services.slips import record_slip
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db

SLIP = {"day": "1", "fish": "7", "alive": "7", "dead": "0", "gross": "8.50", "official": "R. Quill"}


@pytest.fixture
def event() -> Event:
    """Four boats with a slip each, one by one, after two changes of the teams; published twice."""
    event = world.event(rules={"fish_limit": "7"}, added_money="100")
    change_rules(event, {**event.rule_sheet.written, "fish_limit": "8"}, "mara")
    first = event.entries.get(boat=1)
    change_entry(first, EntryValues(boat=1, name="Lindell & Amaro", anglers=("Ida Lindell",), paid=True), "mara")
    for boat in "1234":
        record_slip(event, {**SLIP, "boat": boat}, "mara")
    publish_result(event, "mara")
    change_entry(event.entries.get(boat=2), EntryValues(boat=2, name="Pike Street", anglers=("B Birch",)), "mara")
    publish_result(event, "mara", "a name was misspelled")
    assert checked(event).faults == ()
    return event


def checked(event: Event) -> Ledger:
    return ledger_of(Event.objects.get(pk=event.pk))


def behind(*statements: str) -> None:
    """Run SQL as the owner of the database can."""
    for table in append_only_tables():
        remove(connection, table)
    with connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)
    for table in append_only_tables():
        install(connection, table)


def line(event: Event, act: str) -> HistoryEntry:
    found = HistoryEntry.objects.filter(event_id=event.pk, act=act).order_by("-position").first()
    assert found is not None
    return found


ALTERED: dict[str, tuple[Callable[[Event], tuple[str, ...]], str]] = {
    "slip": (
        lambda e: ("UPDATE slips_weighslip SET gross = '9.50' WHERE number = 3",),
        "slip 3 of boat 3: gross is 9.50, and was written as 8.50",
    ),
    "last slips cut": (
        lambda e: ("DELETE FROM slips_weighslip WHERE number > 2",),
        "slip 3 of boat 3 is missing; the history has it",
    ),
    "official document": (
        lambda e: (
            "UPDATE standings_officialresult SET document = "
            + ("replace(document::text, 'Pike', 'Perch')::jsonb" if connection.vendor == "postgresql" else "replace(document, 'Pike', 'Perch')")
            + " WHERE version = 2",
        ),
        "official result 2: altered since line",
    ),
    "official reason": (
        lambda e: ("UPDATE standings_officialresult SET reason = 'nothing' WHERE version = 2",),
        "official result 2: altered since line",
    ),
    "official version deleted": (
        lambda e: ("DELETE FROM standings_officialresult WHERE version = 2",),
        "official result 2 is missing; it was there after line",
    ),
    "rule sheet": (
        lambda e: (
            "UPDATE events_rulesheet SET written = "
            + ("jsonb_set(written, '{fish_limit}', '\"9\"')" if connection.vendor == "postgresql" else "json_set(written, '$.fish_limit', '9')"),
        ),
        "the rule sheet: altered since line",
    ),
    "team’s name": (
        lambda e: ("UPDATE roster_entry SET name = 'Perch Street' WHERE boat = 2",),
        "the team of boat 2, Perch Street: altered since line",
    ),
    "boat": (
        lambda e: ("UPDATE roster_entry SET boat = 9 WHERE boat = 4",),
        "the team of boat 4 is missing; it was there after line",
    ),
    "paid": (
        lambda e: ("UPDATE roster_entry SET paid = true WHERE boat = 3",),
        "the team of boat 3, Open table pair 3: altered since line",
    ),
    "angler": (
        lambda e: ("UPDATE roster_angler SET name = 'Somebody Else' WHERE name = 'Ida Lindell'",),
        "the team of boat 1, Lindell & Amaro: altered since line",
    ),
    "added money": (
        lambda e: ("UPDATE events_event SET added_money = 900",),
        "the event’s name, place, dates, times or money: altered since line",
    ),
    "day": (
        lambda e: ("UPDATE events_eventday SET due_time = '16:00:00'",),
        "the event’s days: altered since line",
    ),
    "line altered": (
        lambda e: (f"UPDATE audit_historyentry SET actor = 'nobody' WHERE id = {line(e, 'rules.changed').pk}",),
        "nobody: Rule sheet: fish limit is 8, was 7) was altered after it was written",
    ),
    "line deleted": (
        lambda e: (f"DELETE FROM audit_historyentry WHERE id = {line(e, 'rules.changed').pk}",),
        "of the history is missing",
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", ALTERED)
def test_what_was_altered_is_named(event: Event, what: str, capsys: Any) -> None:
    statements, said = ALTERED[what]
    behind(*statements(event))
    assert any(said in fault for fault in checked(event).faults), checked(event).faults
    with pytest.raises(SystemExit):
        call_command("check_ledger", event.slug)
    assert said in capsys.readouterr().out


def test_two_lines_of_the_history_swapped_are_named(event: Event) -> None:
    one, other = line(event, "rules.changed"), line(event, "entry.changed")
    behind(
        f"UPDATE audit_historyentry SET position = 1000 WHERE id = {one.pk}",
        f"UPDATE audit_historyentry SET position = {one.position} WHERE id = {other.pk}",
        f"UPDATE audit_historyentry SET position = {other.position} WHERE id = {one.pk}",
    )
    faults = checked(event).faults
    assert sum("does not follow from the one before it" in fault for fault in faults) >= 2
    assert any("Rule sheet: fish limit is 8" in fault for fault in faults)


def test_a_line_written_anew_with_its_own_digest_breaks_the_chain(event: Event) -> None:
    changed = line(event, "rules.changed")
    changed.sentence = "Nothing"
    before = HistoryEntry.objects.get(event_id=event.pk, position=(changed.position or 0) - 1)
    anew = digest(changed)
    behind(
        f"UPDATE audit_historyentry SET sentence = 'Nothing', digest = '{anew}', "
        f"link = '{next_link(before.link, changed.position or 0, anew)}' WHERE id = {changed.pk}"
    )
    assert [fault for fault in checked(event).faults if "does not follow" in fault]


def test_a_slip_put_in_without_its_history_is_named(event: Event) -> None:
    record_slip(event, {**SLIP, "boat": "1", "gross": "3.00"}, "mara")
    behind(f"DELETE FROM audit_historyentry WHERE id = {line(event, 'slip.recorded').pk}")
    assert "slip 5 of boat 1: the history does not know it" in checked(event).faults


def test_a_tail_cut_from_slips_and_history_alike_is_found_by_what_was_printed(event: Event, capsys: Any) -> None:
    call_command("check_ledger", event.slug)
    told = capsys.readouterr().out
    lines = [one for one in told.splitlines() if one.startswith("To read out or to print: ")]
    slips, history = (one.removeprefix("To read out or to print: ") for one in lines)
    assert slips.startswith("4 slips, ") and "lines of history, " in history
    printed = [(one.split()[0], one.rpartition(", ")[2]) for one in (slips, history)]
    for count, head in printed:
        call_command("check_ledger", event.slug, count=int(count), head=head)
        assert "stands here, unchanged" in capsys.readouterr().out
    last = line(event, "result.published").pk
    behind(
        f"DELETE FROM audit_historyentry WHERE id = {last}",
        "DELETE FROM standings_officialresult WHERE version = 2",
    )
    assert checked(event).faults == ()
    for count, head in printed[1:]:
        with pytest.raises(SystemExit):
            call_command("check_ledger", event.slug, count=int(count), head=head)
        assert "the last ones were cut off" in capsys.readouterr().out
    with pytest.raises(SystemExit):
        call_command("check_ledger", event.slug, count=3, head="0000 0000 0000 0000")
    assert "end in 0000 0000 0000 0000" in capsys.readouterr().out


def test_figures_without_their_count_are_refused(event: Event) -> None:
    with pytest.raises(CommandError, match="go together"):
        call_command("check_ledger", event.slug, head="0000 0000")


def test_all_of_a_history_taken_away_is_said(event: Event) -> None:
    behind(f"DELETE FROM audit_historyentry WHERE event_id = {event.pk}")
    assert "the history of this event is missing" in checked(event).faults


def test_a_club_s_own_history_is_walked_too(event: Event, capsys: Any) -> None:
    assert other_histories() == []
    behind("UPDATE audit_historyentry SET actor = 'nobody' WHERE event_id IS NULL")
    with pytest.raises(SystemExit):
        call_command("check_ledger")
    assert "was altered after it was written" in capsys.readouterr().out


def test_what_is_done_rightly_stays_sound(event: Event) -> None:
    boat = event.entries.get(boat=3)
    change_entry(boat, EntryValues(boat=3, name="Renamed", anglers=("C Cole", "D Dahl")), "mara")
    assert checked(event).faults == ()
    five = EntryValues(boat=5, name="Late", anglers=("E Eide",))
    from weighin.roster.services.teams import enter_team

    late = enter_team(event, five, "mara")
    change_entry(late, EntryValues(boat=6, name="Late", anglers=("E Eide",)), "mara")
    remove_entry(event.entries.get(boat=6), "mara")
    assert checked(event).faults == ()


def before_there_were_chains() -> None:
    behind("UPDATE audit_historyentry SET position = NULL, digest = '', link = '', bound = NULL")


def test_a_history_older_than_the_chain_begins_one_and_is_bound_by_it(event: Event) -> None:
    before_there_were_chains()
    chain_histories()
    assert checked(event).faults == () and other_histories() == []
    begun = line(event, "history.chained")
    assert begun.position == 1 and "what stood before, " in begun.sentence
    chain_histories()
    assert HistoryEntry.objects.filter(event_id=event.pk, act="history.chained").count() == 1
    old = HistoryEntry.objects.filter(event_id=event.pk, position__isnull=True)
    first, last = old.earliest("id"), old.latest("id")
    behind(
        f"UPDATE audit_historyentry SET sentence = 'x' WHERE id = {first.pk}",
        f"DELETE FROM audit_historyentry WHERE id = {last.pk}",
    )
    faults = checked(event).faults
    assert any("an earlier line of the history" in fault and "was altered" in fault for fault in faults)
    assert any("a line of the history from before" in fault and "is missing" in fault for fault in faults)


def test_what_stood_before_the_chain_is_bound_as_it_stood(event: Event) -> None:
    before_there_were_chains()
    chain_histories()
    behind("UPDATE roster_entry SET paid = true WHERE boat = 3", "DELETE FROM slips_weighslip WHERE number = 4")
    faults = checked(event).faults
    assert any("the team of boat 3" in fault for fault in faults)
    assert any("the first 4 slips are not those that stood when line 1 of the history" in fault for fault in faults)


def test_the_figures_stand_on_pages_and_on_paper_as_the_check_says_them(event: Event, capsys: Any) -> None:
    call_command("check_ledger", event.slug)
    told = capsys.readouterr().out
    slips, history = (one.rpartition(", ")[2] for one in told.splitlines() if one.startswith("To read out"))
    member = world.member(event.club)
    for page in (
        reverse("standings:result", args=[event.slug, 2]),
        reverse("public:result", args=[event.slug, 2]),
        reverse("standings:results", args=[event.slug]),
    ):
        text = member.get(page).content.decode()
        assert slips in text and history in text and "Proof of the slips" in text
    for page in ("standings:live", "public:standings", "operations:close", "operations:publish"):
        text = member.get(reverse(page, args=[event.slug])).content.decode()
        assert slips in text, page
    paper = PdfReader(io.BytesIO(event_file(Event.objects.get(pk=event.pk), "pdf")))
    text = " ".join(" ".join(page.extract_text().split()) for page in paper.pages)
    assert slips in text and history in text
