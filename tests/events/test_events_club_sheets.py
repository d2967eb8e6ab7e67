"""A club's rule sheets: named, in versions, started from common practice, compared, and copied into an event."""

from collections.abc import Mapping

import pytest
import world
from django.db import DatabaseError, connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.clubs.models import Club
from weighin.events.access import find
from weighin.events.models import ClubSheet, Event, SheetVersion
from weighin.events.queries.club_sheets import named_sheet, read_version
from weighin.events.services.club_sheets import change_sheet, make_sheet
from weighin.events.services.rule_sheet import copy_rules
from weighin.operations.queries.ledgers import ledger_of
from weighin.rules import rulebook
from weighin.rules.faults import Faults
from weighin.rules.sheet.keys import KEYS
from weighin.rules.sheets.compared import compared, differing_sections
from weighin.rules.sheets.starting import STARTING
from weighin.rules.weights import UNITS


@pytest.fixture
def version(club: Club) -> SheetVersion:
    return make_sheet(club, "Team crappie", "lb", {"fish_limit": "10"}, "mara")


def rules(event: Event) -> dict[str, str]:
    found = find(event.slug)
    assert found is not None
    return dict(found.rule_sheet.written)


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("start", STARTING, ids=lambda one: one.slug)
def test_a_sheet_to_start_from_is_read_by_the_rulebook_in_every_unit(start: object, unit: str) -> None:
    written = start.written(unit)  # type: ignore[attr-defined]
    assert list(written) == [key.name for key in KEYS]
    assert rulebook.read(written, unit).written() == written


def test_sheets_to_start_from_say_what_the_trade_says() -> None:
    """Limits of seven and five, dead fish at 4 or 8 oz, late at a pound or half a pound: common practice, no source."""
    team, couples, bass, release = (one.written("lb") for one in STARTING)
    assert team == rulebook.defaults("lb").written()
    assert (couples["dead_fish_penalty"], couples["late_penalty_per_minute"]) == ("0.00, 0.25", "0.50")
    assert (bass["species"], bass["fish_limit"], bass["dead_fish_penalty"]) == ("black bass", "5", "0.50")
    assert (release["dead_fish"], release["boat_limit"]) == ("not_weighed", "1")
    assert STARTING[1].written("lb-oz")["dead_fish_penalty"] == "0-00, 0-04"


def test_a_change_is_the_next_version_and_the_earlier_one_stays(club: Club, version: SheetVersion) -> None:
    after = change_sheet(version.sheet, "Team crappie", {"fish_limit": "7"}, "mara", 1, "voted in the fall")
    assert (after.number, after.reason, read_version(after).fish_limit) == (2, "voted in the fall", 7)
    assert read_version(SheetVersion.objects.get(number=1)).fish_limit == 10
    entry = HistoryEntry.objects.get(act="sheet.changed")
    assert entry.club_id == club.pk and entry.details["changed"] == {"fish_limit": ["10", "7"]}
    assert HistoryEntry.objects.get(act="sheet.made").details["written"]["fish_limit"] == "10"


def test_a_version_can_neither_be_changed_nor_taken_out(version: SheetVersion) -> None:
    version.reason = "another"
    with pytest.raises(AppendOnlyError):
        version.save()
    with pytest.raises(DatabaseError), transaction.atomic():
        SheetVersion.objects.filter(pk=version.pk)._raw_delete("default")  # type: ignore[attr-defined]


def test_nothing_changed_makes_no_version_and_a_new_name_alone_neither(version: SheetVersion) -> None:
    same = {"fish_limit": "10"}
    assert change_sheet(version.sheet, "Team crappie", same, "mara", 1) == version
    assert not HistoryEntry.objects.filter(act="sheet.changed").exists()
    assert change_sheet(version.sheet, "Night series", same, "mara", 1) == version
    assert ClubSheet.objects.get().name == "Night series"
    assert HistoryEntry.objects.get(act="sheet.changed").details["changed"] == {
        "name": ["Team crappie", "Night series"]
    }


@pytest.mark.parametrize(
    ("said", "fields"),
    [
        ({"name": " "}, {"name"}),
        ({"name": "team  CRAPPIE"}, {"name"}),
        ({"name": "Other", "written": {"fish_limit": "some", "cut_after_day": "1"}}, {"fish_limit", "cut_after_day"}),
        ({"name": "", "reason": "x" * 201, "written": {"places_paid": "1 per 0"}}, {"name", "reason", "places_paid"}),
    ],
)
def test_every_fault_is_said_at_once_and_nothing_is_kept(
    club: Club, version: SheetVersion, said: Mapping[str, object], fields: set[str]
) -> None:
    whole: dict[str, object] = {"written": {}, "reason": "", **said}
    with pytest.raises(Faults) as refused:
        make_sheet(club, unit="lb", by="mara", **whole)  # type: ignore[arg-type]
    assert {fault.field for fault in refused.value.faults} == fields
    assert SheetVersion.objects.get() == version


def test_who_wrote_on_an_earlier_version_is_told(version: SheetVersion) -> None:
    change_sheet(version.sheet, "Team crappie", {"fish_limit": "7"}, "mara", 1)
    with pytest.raises(Faults, match="version 2"):
        change_sheet(version.sheet, "Team crappie", {"fish_limit": "8"}, "odell", 1)
    assert SheetVersion.objects.count() == 2


def test_sheets_are_compared_by_what_they_mean() -> None:
    pounds, ounces = rulebook.defaults("lb"), rulebook.defaults("lb-oz")
    assert not any(pair.differs for pair in compared(pounds, ounces))
    again = rulebook.read({"dead_fish_penalty": "0.25, 0.25"}, "lb")
    assert not differing_sections(pounds, again)
    other = rulebook.read({"fish_limit": "5", "late_penalty_per_minute": "0.5"}, "lb")
    found = differing_sections(pounds, other)
    assert [section.name for section in found] == ["Fish", "Late"]
    assert [(pair.key.name, pair.one, pair.other) for pair in found[0].pairs] == [("fish_limit", "7", "5")]
    assert len(found[0].one) == len(found[0].other) == 1 and "7 fish" in found[0].one[0]


def test_a_copy_keeps_where_it_came_from_and_stays_when_the_sheet_changes(
    director: Client, event: Event, version: SheetVersion
) -> None:
    where = reverse("events:rules_copy", args=[event.slug])
    page = director.get(where, {"source": "sheet:team-crappie"}).content.decode()
    assert "Team crappie, version 1 changes these rules." in page and rules(event)["fish_limit"] == "7"
    page = director.post(where, {"source": "sheet:team-crappie"}, follow=True).content.decode()
    assert "Team crappie, version 1</a>" in page and rules(event)["fish_limit"] == "10"
    entry = HistoryEntry.objects.filter(act="rules.changed").get()
    assert entry.sentence.startswith("Rule sheet copied from Team crappie, version 1: ") and entry.bound
    assert not ledger_of(event).faults
    change_sheet(version.sheet, "Team crappie", {"fish_limit": "5"}, "mara", 1)
    assert rules(event)["fish_limit"] == "10"


def test_weights_that_would_be_rounded_are_not_copied(club: Club, event: Event) -> None:
    make_sheet(club, "Metric", "kg", {"dead_fish_penalty": "0.12"}, "mara")
    found = named_sheet(club, "sheet:metric", "lb")
    assert found is not None
    with pytest.raises(Faults, match="dead_fish_penalty"):
        copy_rules(event, found, "mara", {})
    assert rules(event) == rulebook.defaults("lb").written()


def test_the_first_slip_locks_the_sheet_against_copies_too(db: None) -> None:
    event = world.plain()
    before = rules(event)
    director = world.member(event.club)
    where = reverse("events:rules_copy", args=[event.slug])
    assert "locked since slip 1" in director.get(where).content.decode()
    page = director.post(where, {"source": "start:couples"}).content.decode()
    assert "locked since slip 1" in page and rules(event) == before


def test_a_sheet_is_written_read_and_changed_on_its_pages(director: Client, club: Club) -> None:
    new = reverse("events:sheets_new", args=[club.slug])
    form = director.get(new, {"source": "start:bass-by-five", "unit": "lb"}).context["form"]
    typed = {name: field.initial or "" for name, field in form.fields.items()} | {"name": "Bass league"}
    wrong = director.post(f"{new}?source=start:bass-by-five", typed | {"points_step": "some"})
    assert 'value="Bass league"' in wrong.content.decode() and wrong.content.decode().count("<details open>") == 1
    page = director.post(f"{new}?source=start:bass-by-five", typed, follow=True).content.decode()
    assert "Bass league: 3 rules of" in page and "black bass" in page
    edit = reverse("events:sheet_edit", args=[club.slug, "bass-league"])
    page = director.post(edit, typed | {"seen": "1", "fish_limit": "6", "reason": "calmer fish"}, follow=True)
    assert (
        "Bass league, version 2 is what stands now." in page.content.decode() and "calmer fish" in page.content.decode()
    )
    old = director.get(reverse("events:sheet", args=[club.slug, "bass-league"]), {"version": "1"}).content.decode()
    assert "version 2 stands now" in old
    both = {"one": "sheet:bass-league:1", "other": "sheet:bass-league:2"}
    page = director.get(reverse("events:sheets_compare", args=[club.slug]), both).content.decode()
    assert "One of 46 rules differs." in page.replace(f"of {len(KEYS)} ", "of 46 ")


def test_another_club_s_sheets_are_not_there(director: Client, club: Club, version: SheetVersion) -> None:
    other = world.club("Tarn Bass Club", "tarn")
    make_sheet(other, "Theirs", "lb", {}, "odell")
    for source in ("sheet:theirs", "start:nothing", "sheet:team-crappie:9", "sheet:team-crappie:x", "event:no", ""):
        asked = {"one": source, "other": "defaults"}
        assert director.get(reverse("events:sheets_compare", args=[club.slug]), asked).status_code == 404, source
    assert director.get(reverse("events:sheet", args=[other.slug, "theirs"])).status_code == 404


def test_members_read_sheets_and_see_no_way_to_change_them(club: Club, version: SheetVersion) -> None:
    reader = world.member(club, Role.CLUB_REVIEWER)
    page = reader.get(reverse("events:sheets", args=[club.slug])).content.decode()
    assert "One rule sheet of the club." in page and reverse("events:sheets_new", args=[club.slug]) not in page
    page = reader.get(reverse("events:sheet", args=[club.slug, "team-crappie"])).content.decode()
    assert reverse("events:sheet_edit", args=[club.slug, "team-crappie"]) not in page


def test_the_list_asks_as_often_for_thirty_sheets_as_for_one(director: Client, club: Club) -> None:
    where = reverse("events:sheets", args=[club.slug])
    make_sheet(club, "Sheet 0", "lb", {}, "mara")
    director.get(where)
    with CaptureQueriesContext(connection) as one:
        director.get(where)
    for number in range(1, 30):
        make_sheet(club, f"Sheet {number}", "lb", {}, "mara")
    with CaptureQueriesContext(connection) as many:
        director.get(where)
    assert len(many) == len(one)


def test_a_retired_sheet_is_read_and_not_offered_until_it_is_restored(
    club: Club, director: Client, event: Event, version: SheetVersion
) -> None:
    copy_rules(event, named_sheet(club, "sheet:team-crappie", "lb"), "mara", {})  # type: ignore[arg-type]
    where = reverse("events:sheet", args=[club.slug, "team-crappie"])
    assert world.member(club, Role.WEIGH_OFFICIAL).post(where, {"act": "retire"}).status_code == 403
    assert "is retired" in director.post(where, {"act": "retire"}, follow=True).content.decode()
    director.post(where, {"act": "retire"})
    assert HistoryEntry.objects.filter(act="sheet.retired").count() == 1

    def offered() -> list[bool]:
        asked = (("events:new", club.slug), ("events:sheets", club.slug), ("events:rules_copy", event.slug))
        pages = [director.get(reverse(name, args=[slug])).content.decode() for name, slug in asked]
        return ['value="sheet:team-crappie"' in page for page in pages]

    assert offered() == [False, False, False]
    page = director.get(reverse("events:sheets", args=[club.slug])).content.decode()
    assert where in page and "No rule sheet of the club yet." in page
    assert rules(event)["fish_limit"] == "10"
    refused = director.post(reverse("events:rules_copy", args=[event.slug]), {"source": "sheet:team-crappie"})
    assert refused.context["form"].errors
    director.post(where, {"act": "restore"})
    assert offered() == [True, True, True] and HistoryEntry.objects.filter(act="sheet.restored").count() == 1


@pytest.mark.parametrize(
    ("source", "limit", "penalty"),
    [("", "7", "0-04"), ("sheet:team-crappie", "10", "0-04"), ("start:bass-by-five", "5", "0-08")],
)
def test_a_new_event_takes_a_sheet_of_the_club_or_one_to_start_from(
    club: Club, director: Client, said: dict[str, str], version: SheetVersion, source: str, limit: str, penalty: str
) -> None:
    director.post(reverse("events:new", args=[club.slug]), said | {"weight_unit": "lb-oz", "rules_from": source})
    made = Event.objects.get()
    assert (rules(made)["fish_limit"], rules(made)["dead_fish_penalty"]) == (limit, penalty)
    assert made.rule_sheet.copied_from == (version if source.startswith("sheet") else None)


def test_a_sheet_with_weights_of_its_own_in_another_unit_is_refused_for_a_new_event(
    club: Club, director: Client, said: dict[str, str]
) -> None:
    make_sheet(club, "Ours", "lb", {"dead_fish_penalty": "0.3"}, "mara")
    wrong = said | {"weight_unit": "kg", "rules_from": "sheet:ours", "name": ""}
    form = director.post(reverse("events:new", args=[club.slug]), wrong).context["form"]
    assert set(form.errors) == {"name"}
    form = director.post(reverse("events:new", args=[club.slug]), wrong | {"name": "New"}).context["form"]
    assert set(form.errors) == {"rules_from"} and not Event.objects.exists()
