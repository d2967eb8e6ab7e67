"""The stop level during an event: the order of the scales, the verdict as something to do, and the rule with its false alarms."""

import re
from datetime import UTC, datetime

import pytest
import world
from django.urls import reverse
from mortality.seasons import fished
from scipy.stats import binom

from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.mortality.pages.event_report import event_report
from weighin.mortality.queries.stop_level import in_order, stop_level
from weighin.survival.sequential import watch

pytestmark = pytest.mark.django_db
TODAY = f"{datetime.now(UTC):%Y-%m-%d}"
BAD = [(7, 3), (7, 5), (7, 2), (7, 6), (7, 4), (7, 5), (7, 3), (7, 4)]
FEW = [(7, 0), (7, 3), (7, 0), (6, 2)]
ABOVE = [(7, 0), (7, 2), (7, 0), (7, 3), (7, 0), (7, 1), (7, 0), (7, 0)]
WELL = [(7, 0)] * 30 + [(7, 1)]
NEVER = re.compile(r"\b(prov\w+|caus\w+|because of|due to|led to|killed by|saves?|saved)\b", re.IGNORECASE)


def page(event: Event) -> str:
    response = world.member(event.club).get(reverse("mortality:event", args=[event.slug]))
    assert response.status_code == 200
    return response.content.decode().replace("\u00a0", " ")


def test_a_bad_day_says_what_to_do_now() -> None:
    text = page(fished("Bad", BAD, date=TODAY))
    assert "Clearly above our stop level of 10 %: losses passed it after" in text
    assert "32 dead of 56 fish in 8 livewells" in text
    steps = ["Hold the line.", "Oxygen check:", "Go over to measured lengths and release at the water"]
    places = [text.index(step) for step in steps]
    assert places == sorted(places)
    assert "That something may be wrong is said, and not what" in text


def test_the_rule_is_stated_with_its_false_alarms() -> None:
    text = page(fished("Bad", BAD, date=TODAY))
    assert "either is false at no more than one event in 20, however often one looks" in text
    assert "at least three livewells have lost fish" in text
    assert "The ranges do not allow for looking again and again; the rule does." in text
    assert "it never warned at 73 % of those with 15 boats" in text
    assert "correlation 0.2, assumed: fewer than 8 events of the club came before this one" in text


def test_a_warning_that_later_boats_would_not_give_is_explained() -> None:
    text = page(fished("Later well", [*BAD[:4], *[(7, 0)] * 40], date=TODAY))
    assert "The range of the rate reaches below the level: it counts the livewells at the end" in text


def test_few_fish_are_counted_and_cannot_tell() -> None:
    text = page(fished("Few", FEW, date=TODAY))
    assert "Too few fish to tell yet." in text
    assert "5 dead of 27 fish in 4 livewells (18.5 %, range" in text
    assert "Clearly above" not in text
    assert binom.sf(4, 40, 0.065) == pytest.approx(1 / 8, abs=0.01)


def test_above_the_level_without_a_warning_asks_for_an_oxygen_check() -> None:
    text = page(fished("Above", ABOVE, date=TODAY))
    assert "Above our stop level of 10 %, which may be chance." in text
    assert "Oxygen check: measure tanks, line and the next livewells; at or above 5 mg/L" in text
    assert "Clearly above" not in text


def test_a_good_day_asks_for_nothing() -> None:
    text = page(fished("Well", WELL, date=TODAY))
    assert "Clearly below our stop level of 10 %." in text
    assert "Oxygen check" not in text


def test_before_the_first_livewell() -> None:
    text = page(fished("Morning", [], date=TODAY, boats=2))
    assert "Nothing to watch yet." in text


def test_none_dead_is_not_no_mortality() -> None:
    text = page(fished("None", [(7, 0)] * 8, date=TODAY))
    assert "0 dead of 56 fish in 8 livewells (none seen, up to" in text


def test_after_the_event_nothing_is_told_to_do() -> None:
    text = page(fished("Past", BAD, date="2026-06-20"))
    assert "Clearly above our stop level of 10 %: losses passed it after" in text
    assert "Hold the line" not in text


@pytest.mark.parametrize("catches", [BAD, FEW, ABOVE, WELL])
def test_no_word_says_more_than_was_seen(catches: list[tuple[int, int]]) -> None:
    found = event_report(fished("Words", catches, date=TODAY)).stop_level
    assert found is not None
    for said in (found.title, found.says, found.rule, found.short, found.why_measured, *found.to_do):
        assert not NEVER.search(said), said


def test_the_day_page_puts_a_warning_first_and_says_a_quiet_day() -> None:
    bad = fished("Bad", BAD, date=TODAY)
    html = world.member(bad.club).get(reverse("operations:day", args=[bad.slug])).content.decode()
    assert "Hold the line and check the oxygen." in html
    assert html.index("Clearly above") < html.index("no care note")
    well = fished("Well", WELL, date=TODAY)
    html = world.member(well.club, username="second").get(reverse("operations:day", args=[well.slug])).content.decode()
    assert "Clearly below" in html and "1 of 217 fish" in html and "Clearly above" not in html


def test_the_public_page_tells_nobody_to_hold_the_line() -> None:
    event = fished("Bad", BAD, date=TODAY)
    Event.objects.filter(pk=event.pk).update(is_public=True)
    html = world.stranger().get(reverse("public:mortality", args=[event.slug])).content.decode()
    assert "Hold the line" not in html and "stop-level" not in html


def test_livewells_stand_in_the_order_of_the_scales() -> None:
    slips = [
        {"boat": "1", "fish": "7", "alive": "7", "dead": "0", "weighed": "15:30"},
        {"boat": "2", "fish": "6", "alive": "2", "dead": "4", "weighed": "14:10"},
        {"boat": "3", "fish": "5", "alive": "4", "dead": "1", "weighed": "15:00", "well_boat": "2"},
        {"boat": "4", "fish": "0", "alive": "0", "dead": "0", "weighed": "14:00"},
    ]
    rows = [{"day": "1", "gross": "6.00" if slip["fish"] != "0" else "", **slip} for slip in slips]
    event = fished("Order", [], boats=4, slips=rows)
    found = event_report(event).stop_level
    assert found is not None
    assert [(lot.fish, lot.dead) for lot in found.lots] == [(11, 5), (7, 0)]
    assert found.seen == watch([5, 0], [11, 7], 0.10)


def test_without_a_time_the_slips_numbers_decide() -> None:
    rows = [
        {"day": "1", "boat": str(boat), "fish": "5", "alive": str(5 - dead), "dead": str(dead), "gross": "5.00", **when}
        for boat, dead, when in ((1, 1, {"weighed": "15:30"}), (2, 2, {}), (3, 3, {"weighed": "14:30"}))
    ]
    found = event_report(fished("Untimed", [], boats=3, slips=rows)).stop_level
    assert found is not None and [lot.dead for lot in found.lots] == [1, 2, 3]
    assert in_order([]) == []


def test_the_running_rate_ends_with_every_fish() -> None:
    found = event_report(fished("Steps", WELL, date=TODAY)).stop_level
    assert found is not None
    assert len(found.steps) == 8 and found.steps[-1].livewells == len(WELL)
    assert (found.steps[-1].rate.dead, found.steps[-1].rate.n) == (1, 217)


def test_an_event_that_keeps_its_fish_is_not_watched() -> None:
    event = fished("Kept", BAD, date=TODAY, handling="harvest")
    assert event_report(event).stop_level is None
    assert "stop-level" not in page(event)


def test_a_stop_level_of_nothing_is_not_watched() -> None:
    event = fished("Level", BAD, date=TODAY, rules={"care_stop_percent": "0"})
    assert stop_level(event, rules_of(event), [], is_over=False) is None
