"""The rule sheet's pages: every key with its meaning, changed until the first slip."""

import pytest
import world
from django.test import Client
from django.urls import reverse
from django.utils.html import escape

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.access import find
from weighin.events.forms.rules import RulesForm, choice_words
from weighin.events.models import Event
from weighin.events.queries.club_sheets import named_sheet
from weighin.events.services.club_sheets import make_sheet
from weighin.events.services.rule_sheet import change_rules, copy_rules
from weighin.rules.rulebook import defaults
from weighin.rules.sheet.keys import KEYS
from weighin.rules.weights import UNITS
from weighin.rules.words.sheet import sheet_in_words


def written(event: Event) -> dict[str, str]:
    found = find(event.slug)
    assert found is not None
    return dict(found.rule_sheet.written)


def test_the_page_shows_every_key_with_its_meaning_and_the_sheet_in_words(director: Client, event: Event) -> None:
    page = director.get(reverse("events:rules", args=[event.slug])).content.decode()
    for key in KEYS:
        assert escape(key.meaning) in page and key.name in page, key.name
    for _, sentences in sheet_in_words(defaults("lb")):
        for sentence in sentences:
            assert escape(sentence) in page, sentence
    assert f"All {len(KEYS)} rules are at their defaults." in page


def test_the_page_names_the_sheet_that_the_rules_are_of(director: Client, event: Event) -> None:
    """The sheet to start from that has the defaults too is said by its name, since somebody chose it."""
    page = reverse("events:rules", args=[event.slug])
    assert "The rule sheet is Team crappie." in director.get(page).content.decode()
    assert "Choose another sheet" in director.get(page).content.decode()
    club, unit = event.club, event.weight_unit
    for source, named in (("start:bass-by-five", "Bass by five"), ("start:couples", "Couples")):
        found = named_sheet(club, source, unit)
        assert found is not None
        copy_rules(event, found, "test", {})
        assert f"The rule sheet is {named}." in director.get(page).content.decode()
    kept = make_sheet(club, "Ours", unit, defaults(unit).written() | {"fish_limit": "6"}, "test", "")
    ours = named_sheet(club, f"sheet:{kept.sheet.slug}", unit)
    assert ours is not None
    copy_rules(event, ours, "test", {})
    assert "The rule sheet is Ours, version 1." in director.get(page).content.decode()
    change_rules(event, {"fish_limit": "5"}, "test")
    changed = director.get(page).content.decode()
    assert "The rule sheet is" not in changed and "Copied from" in changed


@pytest.mark.parametrize("unit", UNITS)
def test_the_form_shows_every_key_and_sends_back_the_same_sheet(unit: str) -> None:
    sheet = defaults(unit).written()
    form = RulesForm(written=sheet, unit=unit)
    assert list(form.fields) == [key.name for key in KEYS]
    assert {name: str(field.initial) for name, field in form.fields.items()} == sheet
    assert all(field.help_text for field in form.fields.values())
    sent = RulesForm(sheet, written=sheet, unit=unit)
    assert sent.is_valid() and sent.cleaned_data == sheet


def test_every_choice_has_its_own_words() -> None:
    chosen = [key for key in KEYS if key.kind == "choice"]
    assert len(chosen) == 4
    for key in chosen:
        words = choice_words(key)
        assert [choice for choice, _ in words] == list(key.choices)
        assert len({said.partition(": ")[2] for _, said in words}) == len(key.choices)


def test_changes_are_kept_and_noted(director: Client, event: Event) -> None:
    where = reverse("events:rules_edit", args=[event.slug])
    answer = director.post(where, written(event) | {"fish_limit": "5", "dead_fish_penalty": "0, 0.25"}, follow=True)
    assert "Two of" in answer.content.decode() and "The rules are saved." in answer.content.decode()
    assert (written(event)["fish_limit"], written(event)["dead_fish_penalty"]) == ("5", "0.00, 0.25")
    entry = HistoryEntry.objects.get(act="rules.changed")
    assert entry.details["changed"]["fish_limit"] == ["7", "5"] and entry.event_id == event.pk
    found = find(event.slug)
    assert found is not None and found.revision == event.revision + 1


def test_a_blank_line_is_its_default(director: Client, event: Event) -> None:
    where = reverse("events:rules_edit", args=[event.slug])
    director.post(where, written(event) | {"fish_limit": "5"})
    director.post(where, written(event) | {"fish_limit": "  ", "species": ""})
    assert written(event) == defaults("lb").written()


def test_every_fault_stands_at_its_rule_and_nothing_is_lost(director: Client, event: Event) -> None:
    where = reverse("events:rules_edit", args=[event.slug])
    wrong = written(event) | {
        "fish_limit": "some",
        "dead_fish_penalty": "0,25 kg",
        "places_paid": "1 per 0",
        "species": "perch",
    }
    answer = director.post(where, wrong)
    assert set(answer.context["form"].errors) == {"fish_limit", "dead_fish_penalty", "places_paid"}
    assert 'value="perch"' in answer.content.decode() and 'value="0,25 kg"' in answer.content.decode()
    answer = director.post(where, written(event) | {"cut_after_day": "1", "ties": "share, lot"})
    assert set(answer.context["form"].errors) == {"cut_after_day", "ties"}
    assert written(event) == defaults("lb").written()
    assert not HistoryEntry.objects.filter(act="rules.changed").exists()


def test_ten_rules_stand_first_and_all_others_fold_by_section_with_what_was_changed_counted() -> None:
    sheet = defaults("lb").written() | {"count_best": "8", "season_ties": "share"}
    form = RulesForm(written=sheet, unit="lb")
    folded = form.folded()
    shown = [field.name for field in form.first()] + [field.name for part in folded for field in part.fields]
    assert len(form.first()) == 10 and sorted(shown) == sorted(key.name for key in KEYS)
    assert [part.name for part in folded if part.changed] == ["Points"]
    assert next(part.changed for part in folded if part.name == "Points") == 2
    assert not any(part.open for part in folded)


def test_a_fault_opens_its_section_and_no_other(director: Client, event: Event) -> None:
    wrong = written(event) | {"points_step": "some", "care_min_do": "much"}
    answer = director.post(reverse("events:rules_edit", args=[event.slug]), wrong)
    assert [part.name for part in answer.context["form"].folded() if part.open] == ["Points", "Fish care"]
    page = answer.content.decode()
    assert page.count("<details open>") == 2 and 'value="much"' in page


def test_the_first_slip_locks_the_sheet(db: None) -> None:
    event = world.plain()
    director = world.member(event.club)
    where = reverse("events:rules_edit", args=[event.slug])
    page = director.get(where).content.decode()
    assert "The rule sheet is locked since slip 1" in page and "Save the rules" not in page
    before = written(event)
    page = director.post(where, before | {"fish_limit": "3"}).content.decode()
    assert "A ruling on one team is written on its slip" in page
    assert written(event) == before
    read = director.get(reverse("events:rules", args=[event.slug])).content.decode()
    assert "locked since slip 1" in read and where not in read


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER])
def test_members_read_the_rules_and_see_no_way_to_change_them(event: Event, role: str) -> None:
    page = world.member(event.club, role).get(reverse("events:rules", args=[event.slug])).content.decode()
    assert "at their defaults" in page and reverse("events:rules_edit", args=[event.slug]) not in page


def test_a_fault_names_other_rules_as_the_form_does(director: Client, event: Event) -> None:
    page = director.post(reverse("events:rules_edit", args=[event.slug]), {"cut_after_day": "1"}).content.decode()
    assert "A cut needs “Teams kept by the cut” too" in page
    assert "needs cut_keep" not in page
