"""Fish found dead when a batch went back reach every figure, once; the release record's times stand where a slip has none."""

import uuid

import pytest
import world
from django.utils import timezone
from mortality.seasons import fished, pen, season_of

from weighin.care.queries.care import care_rows
from weighin.care.queries.season import care_record
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.mortality.pages.event_report import event_report
from weighin.mortality.queries.event import event_mortality
from weighin.mortality.queries.event_sums import event_sums
from weighin.mortality.queries.season import season_mortality
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.slips.services.slips import record_slip
from weighin.survival.clusters import clustered
from weighin.tanks.services.bags import hand_over, let_go

pytestmark = pytest.mark.django_db
BATCH = {"day": "1", "by": "batch", "time": "15:40", "place": "The point"}


def released(event: Event, boats: list[int], dead: int) -> None:
    bags = [hand_over(event, 1, boat, "crew") for boat in boats]
    fish = sum(bag.fish for bag in bags)
    let_go(event, [bag.pk for bag in bags], {**BATCH, "fish": str(fish), "dead": str(dead)}, "crew", uuid.uuid4())


def untimed(name: str, catches: list[tuple[int, ...]]) -> Event:
    """An event whose slips say nothing of the release."""
    slips = [
        {"day": "1", "boat": str(n), "fish": str(fish), "alive": str(fish - dead), "dead": str(dead),
         "dead_at_release": str(sum(more)), "gross": "5.00", "weighed": "15:10"}
        for n, (fish, dead, *more) in enumerate(catches, start=1)
    ]  # fmt: skip
    return fished(name, [], slips=slips, boats=len(catches))


def test_a_boats_own_batch_gives_it_its_dead() -> None:
    event = untimed("Own", [(7, 0), (7, 1), (6, 0)])
    released(event, [1], dead=2)
    found = event_mortality(event)
    assert (found.dead, found.dead_at_table, found.dead_at_release) == (3, 1, 2)
    assert found.high == clustered([2, 1, 0], [7, 7, 6]).high


def test_the_same_fish_on_slip_and_release_count_once() -> None:
    event = untimed("Once", [(7, 0, 2), (7, 1)])
    released(event, [1], dead=2)
    assert event_mortality(event).dead == 3


def test_the_dead_of_a_mixed_batch_belong_to_the_event() -> None:
    """Two dead of 7 + 5 live fish handed on: 7/6 and 5/6 of a fish for the clusters, two for the count."""
    event = untimed("Mixed", [(7, 0), (6, 1), (6, 0)])
    released(event, [1, 2], dead=2)
    found, seen = event_mortality(event), clustered([2 * 7 / 12, 1 + 2 * 5 / 12, 0], [7, 6, 6])
    assert (found.dead, found.initial) == (3, 3 / 19)
    assert (found.low, found.high) == pytest.approx((seen.low, seen.high))


def test_one_that_a_slip_of_the_batch_names_is_not_added() -> None:
    event = untimed("Named", [(7, 0, 1), (6, 0)])
    released(event, [1, 2], dead=2)
    assert event_mortality(event).dead == 2


def test_never_more_dead_than_fish() -> None:
    event = untimed("All", [(7, 6), (6, 0)])
    released(event, [1, 2], dead=7)
    found = event_mortality(event)
    assert (found.dead, found.high) == (13, 1.0)


def test_every_figure_says_the_same() -> None:
    event = untimed("Same", [(7, 0), (6, 1), (6, 0)])
    released(event, [1, 2], dead=2)
    event.refresh_from_db()
    season = season_of(event)
    assert event_report(event).found.dead == event_mortality(event).dead == 3
    assert season_mortality(season).dead == 3
    assert [one.dead for one in event_sums(Event.objects.all())] == [3]
    assert event_document(whole_event(event))["mortality"]["dead"] == 3
    assert "2 fish were found dead when a batch of several boats went back." in [
        what for what, _ in event_report(event).missing_said
    ]


def test_the_page_counts_a_mixed_batch_livewell_by_livewell() -> None:
    """One dead of 7 + 5 live fish handed on: the running count has parts of a fish and its range, the event whole ones."""
    event = untimed("Parts", [(7, 0), (6, 1), (6, 0)])
    released(event, [1, 2], dead=1)
    response = world.member(event.club, "director").get(f"/events/{event.slug}/mortality/")
    assert response.status_code == 200
    said = response.content.decode()
    assert "0.6 of 7" in said
    assert "2 of 19" in said
    assert "two lost none and one lost one. 1 fish more died in batches of several boats." in said
    assert "so a row can have parts of a fish" in said


def test_pages_about_releases_say_that_their_dead_count() -> None:
    event = untimed("Said", [(7, 0), (6, 1)])
    released(event, [1, 2], dead=1)
    director = world.member(event.club, "director")
    for page in ("care/account/", "care/releases/", "care/releases/new/"):
        said = director.get(f"/events/{event.slug}/{page}").content.decode()
        assert "rest on the slips alone" not in said
        assert "nobody’s slip" not in said
        assert "ound dead" in said


def test_the_batchs_time_stands_where_a_slip_has_none() -> None:
    event = untimed("Times", [(7, 0), (6, 1)])
    released(event, [1, 2], dead=0)
    panel = event_report(event)
    assert (panel.missing.release_unwritten, panel.missing.slips) == (0, 2)
    assert {float(row.care.minutes_held or 0) for row in care_rows(event)} == {580.0}  # 6:00 to 15:40
    season = Season.objects.get(pk=event.season_id)
    assert {float(day.care.minutes_held or 0) for team in care_record(season).teams for day in team.days} == {580.0}


def test_a_fifth_of_the_reference_fish_is_the_most() -> None:
    """The usual limit for Abbott's correction in bioassays, 20 % (Abbott 1925; as in WHO's guidance, from memory)."""
    at, above = (
        fished(name, [(7, 1)] * 4, holding=[pen("tournament", 20, 9), pen("reference", 20, dead)])
        for name, dead in (("At", 4), ("Above", 5))
    )
    assert event_mortality(at).delayed == pytest.approx((9 / 20 - 4 / 20) / (1 - 4 / 20))
    found = event_mortality(above)
    assert (found.delayed, found.delayed_basis, found.total) == (None, None, None)
    assert "5 of 20 reference fish died" in event_report(above).later[0].of_which


def test_a_total_is_never_below_what_was_seen() -> None:
    """More reference than tournament fish died: no increase shown, and 8 of 28 stay 8 of 28."""
    event = fished("Fewer", [(7, 2)] * 4, holding=[pen("tournament", 40, 1), pen("reference", 40, 6)])
    found, panel = event_mortality(event), event_report(event)
    assert found.delayed is not None and found.delayed < 0
    assert found.total == found.initial == 8 / 28
    assert panel.initial is not None and panel.total is not None
    assert panel.total.rate == pytest.approx(8 / 28)
    assert panel.total.low >= panel.initial.low
    assert panel.later[0].rate == "no increase shown"


def test_slips_on_which_nobody_counted_the_dead_at_the_release_are_said() -> None:
    """The plain event: of the slips with living fish one holds a count, and blank is not none."""
    event = world.plain()
    said = dict(event_report(event).missing_said)
    assert "4 of 5 slips with living fish do not say how many fish were dead at the release." in said


def test_a_doubled_day_shows_no_earlier_than_the_places_do() -> None:
    event = world.plain()
    hold = timezone.now()
    record_slip(event, {"boat": "2", "day": "1", "fish": "0", "alive": "0", "dead": "0"}, "test")
    assert event_mortality(event).waiting == 1
    assert whole_event(event).mortality.waiting == 1
    assert whole_event(event, hold).mortality.waiting == 0
