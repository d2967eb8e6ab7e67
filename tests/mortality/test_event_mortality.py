"""An event's dead fish, worked out by hand and by the survival functions, and its page."""

import pytest
import world
from django.utils import timezone
from mortality.seasons import fished, pen

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.mortality.pages.event_report import event_report
from weighin.mortality.queries.event import event_mortality, mortality_part
from weighin.slips.services.slips import record_slip
from weighin.survival.clusters import clustered
from weighin.survival.delayed import abbott, compound
from weighin.tanks.models import Release

pytestmark = pytest.mark.django_db
TEN = [(7, 0)] * 7 + [(7, 1), (7, 2), (7, 5)]


def page(event: Event, role: str = Role.DIRECTOR) -> str:
    response = world.member(event.club, role).get(f"/events/{event.slug}/mortality/")
    assert response.status_code == 200
    return response.content.decode().replace("\u00a0", " ")


def test_ten_teams_of_seven():
    """The scoring contract's example of few clusters: 8 of 70, design effect 3.29, of which 3.70 is seen."""
    found = event_mortality(fished("Ten", TEN))
    assert (found.presented, found.dead, found.clusters) == (70, 8, 10)
    assert found.design_effect == pytest.approx(3.29, abs=0.005)
    rate = clustered([0] * 7 + [1, 2, 5], [7] * 10)
    assert (found.initial, found.low, found.high) == (rate.rate, rate.low, rate.high)


def test_each_denominator_by_hand():
    event = fished("Kept", [(7, 1, 1, 2), (6, 0, 0, 3), (5, 0, 1, 0)])
    found = event_mortality(event)
    assert (found.presented, found.dead, found.kept) == (18, 3, 5)
    assert found.initial == 3 / 18
    assert found.of_release == 3 / 13
    assert found.removed == 8 / 18
    lines = {line.name: line for line in event_report(event).lines}
    assert lines["Dead by release"].count == "3 of 18"
    assert lines["Dead at the table"].count == "1 of 18"
    assert lines["Dead, of fish meant for the lake"].count == "3 of 13"
    assert lines["Taken out of the lake"].count == "8 of 18"
    assert all(line.limits for line in lines.values())


def test_another_boats_well_is_one_cluster():
    slips = [{"boat": "3", "day": "1", "fish": "4", "alive": "0", "dead": "4", "gross": "5", "well_boat": "1"}]
    event = fished("Towed", [(7, 6), (7, 0)], boats=1, slips=slips)
    found = event_mortality(event)
    assert found.clusters == 2
    assert found.low == clustered([10, 0], [11, 7]).low


def test_a_holding_study_with_reference_fish():
    """12 of 240 at the scales, 15 of 50 held against 6 of 53: delayed 21.06 %, total 25.01 % (check values)."""
    catches = [(8, 0)] * 27 + [(8, 4)] * 3
    event = fished("Held", catches, holding=[pen("tournament", 50, 15), pen("reference", 53, 6)])
    panel = event_report(event)
    assert panel.found.delayed == pytest.approx(0.2106, abs=5e-5)
    assert panel.found.total == pytest.approx(0.2501, abs=5e-5)
    assert panel.found.delayed_basis == "reference"
    both = compound(panel.initial, abbott([15], [50], [6], [53]))
    assert (panel.total.rate, panel.total.low, panel.total.high) == (both.rate, both.low, both.high)
    later, together = panel.later
    assert (later.count, later.rate) == ("15 of 50", "21.1\u00a0%")
    assert "6 of 53 reference fish" in later.of_which
    assert together.rate == "25.0\u00a0%" and together.limits


def test_the_range_of_a_study_counts_pens():
    """Pens 2 3 9 of 20 against 1 0 1 of 20: 20.69 %, 11.46 points by pen (check values)."""
    pens = [pen("tournament", 20, dead) for dead in (2, 3, 9)] + [pen("reference", 20, dead) for dead in (1, 0, 1)]
    study = event_report(fished("Pens", TEN, holding=pens)).study
    assert 100 * study.delayed.rate == pytest.approx(20.69, abs=0.005)
    assert 100 * study.delayed.standard_error == pytest.approx(11.46, abs=0.005)


def test_a_study_that_shows_no_increase():
    event = fished("Less", TEN, holding=[pen("tournament", 40, 1), pen("reference", 40, 5)])
    assert event_mortality(event).delayed == pytest.approx((1 / 40 - 5 / 40) / (35 / 40))
    text = page(event)
    assert "no increase shown" in text and "−" not in text.split("Died after release")[1].split("</tr>")[0]


def test_a_study_without_reference_fish_says_so():
    event = fished("Alone", TEN, holding=[pen("tournament", 24, 7, missing=2)])
    found = event_mortality(event)
    assert (found.delayed, found.delayed_basis) == (7 / 22, "no_reference")
    text = page(event)
    assert "without reference fish: deaths from being held are in it" in text
    assert "Two more went missing from the pens and are left out." in text


@pytest.mark.parametrize("holding", [[], [pen("reference", 20, 1)], [pen("tournament", 20, 3), pen("reference", 9, 9)]])
def test_no_study_that_can_be_used_is_not_known_and_never_nought(holding):
    event = fished("Unknown", TEN, holding=holding)
    part = mortality_part(event_mortality(event))
    assert part["delayed"] is None and part["delayed_basis"] is None and part["total"] is None
    assert [line.rate for line in event_report(event).later] == ["not known", "not known"]
    assert page(event).count("not known</td>") == 2


def test_reference_fish_of_another_species_are_named():
    event = fished("Other", TEN, holding=[pen("tournament", 30, 4), pen("reference", 30, 1)])
    event.holding_pens.filter(kind="reference").update(species="bluegill")  # as written before such pens were refused
    assert "The reference fish were bluegill, the others white crappie" in page(event)


def test_the_page_of_a_plain_event():
    text = page(fished("Plain", TEN))
    assert "8 of 70 fish brought to the scales were dead: 11.4 % seen." in text
    assert "95 % range 3.0 to 34.8 %, by livewell" in text
    assert "The 70 fish came from 10 livewells." in text and "design effect 3.3" in text
    assert "Of ten livewells seven lost none, one lost one, one lost two and one lost five." in text
    assert "our stop level, 10 %" in text
    assert "No published study of crappie tournaments was found." in text
    assert 'role="img"' in text and "<desc" in text


def test_none_dead_shows_the_limit_and_not_nought():
    text = page(fished("Cool", [(7, 0)] * 5 + [(5, 0)]))
    assert "None of 40 fish brought to the scales was dead." in text
    assert "<small>≤</small>26.2<small>%</small>" in text
    assert "none seen" in text
    assert "0.0 %" not in text and ">0 %" not in text
    assert "no mortality" not in text.replace("not the same as no mortality", "")


def test_all_dead_and_one_fish():
    text = page(fished("Lost", [(4, 4), (3, 3)]))
    assert "All 7 fish brought to the scales were dead." in text
    assert "2.8 % and more" in text
    text = page(fished("One", [(1, 0)]))
    assert "The one fish brought to the scales was alive." in text
    assert "up to 79.3 %" in text


def test_fish_all_kept_leave_none_to_release():
    event = fished("Harvest", [(5, 1, 0, 4), (5, 2, 0, 3)], handling="harvest")
    lines = {line.name: line for line in event_report(event).lines}
    assert lines["Dead, of fish meant for the lake"].count == "3 of 3"
    assert lines["Taken out of the lake"].count == "10 of 10"
    everything_kept = fished("Kept all", [(5, 0, 0, 5)])
    assert event_mortality(everything_kept).of_release is None
    assert "Dead, of fish meant for the lake" not in page(everything_kept)


def test_an_event_without_fish_makes_up_no_rate():
    before = fished("Before", [], boats=3, date="2099-06-20")
    text = page(before)
    assert "No fish is at the scales yet." in text and "%</small>" not in text
    after = page(fished("After", [(0, 0)], date="2020-06-20"))
    assert "No fish was brought to the scales." in after


def test_what_is_missing_is_said_with_what_it_could_do():
    slips = [{"boat": "3", "day": "1", "fish": "4", "alive": "4", "dead": "0", "gross": "5"}]
    event = fished("Gaps", [(7, 1), (7, 0)], boats=2, slips=slips, lake="", date="2020-06-20")
    record_slip(event, {"boat": "2", "day": "1", "fish": "6", "alive": "6", "dead": "0", "gross": "8"}, "test")
    text = page(event)
    assert "One boat has two slips for a day." in text
    # Without boat 2's day 1 of 11 fish is dead; its 7 fish at most, all alive or all dead: 1/18 to 8/18.
    assert "between 5.6 % and 44.4 %" in text
    assert "1 of 4 boats has no slip." in text
    assert "1 of 2 slips with living fish have no time of release." in text
    assert "No lake temperature." in text
    assert "No holding study." in text


def test_dead_at_release_without_a_boat_count_once():
    event = fished("Let go", [(7, 0, 1, 0), (7, 0)])
    release = {"event": event, "day": 1, "time": timezone.now(), "by": "boat", "place": "Old Bridge Arm", "fish": 7}
    Release.objects.create(**release, dead=1)
    assert event_mortality(event).dead == 1, "the slip has it"
    Release.objects.create(**release, dead=2)
    assert event_mortality(event).dead == 3
    assert "2 fish were found dead when a batch of several boats went back." in page(event)


def test_several_days_are_shown_one_by_one():
    slips = [
        {"boat": "1", "day": "2", "fish": "7", "alive": "4", "dead": "3", "gross": "8"},
        {"boat": "2", "day": "2", "fish": "5", "alive": "5", "dead": "0", "gross": "8"},
    ]
    event = fished("Two days", [(7, 0), (6, 1)], slips=slips, days="2")
    panel = event_report(event)
    assert [(line.name, line.count) for line in panel.day_lines] == [("Day 1", "1 of 13"), ("Day 2", "3 of 12")]
    assert panel.found.clusters == 2
    assert "Sat, June 20, 2026" in page(event) and "Sun, June 21, 2026" in page(event)


def test_strangers_and_members():
    event = fished("Closed doors", TEN)
    address = f"/events/{event.slug}/mortality/"
    for role in Role.values:
        assert world.member(event.club, role).get(address).status_code == 200
    assert world.stranger().get(address).status_code == 404


def test_the_same_queries_for_few_and_many_boats(django_assert_max_num_queries):
    counts = []
    for boats in (2, 60):
        event = fished(f"Size {boats}", [(7, 1)] * boats)
        client = world.member(event.club)
        client.get(f"/events/{event.slug}/mortality/")
        with django_assert_max_num_queries(16) as counted:
            client.get(f"/events/{event.slug}/mortality/")
        counts.append(len(counted))
    assert counts[0] == counts[1]


def test_other_pages_say_it_in_one_sentence():
    assert event_mortality(fished("Ten", TEN)).said.replace("\u00a0", " ") == (
        "8 of 70 fish brought to the scales were dead: 11.4 % seen (95 % range 3.0 to 34.8 %, by livewell)"
    )
    cool = fished("Cool", [(7, 0)] * 5 + [(5, 0)])
    said = "None of 40 fish brought to the scales was dead, which leaves open anything up to 26.2 %"
    assert event_mortality(cool).said.replace("\u00a0", " ") == said
    assert event_mortality(fished("All", [(7, 7)])).said.endswith("anything from 45.3\u00a0% upward")
    assert event_mortality(fished("None", [], boats=1)).said == ""
    text = world.member(cool.club).get(f"/events/{cool.slug}/").content.decode().replace("\u00a0", " ")
    assert said in text and "0.0 %" not in text
