"""The agency's catch report: its figures, its layouts, its due date, and the published figures of one agency."""

from datetime import date
from decimal import Decimal

import pytest
import world
from django.urls import reverse

from weighin.agency.domain.indicators import indicators
from weighin.agency.pages.layouts import BY_KEY, LAYOUTS, report_lines
from weighin.agency.queries.catch import event_catch, season_catch


def test_alabama_2005() -> None:
    """Alabama's bass tournament report of 2005 (as read in the project's check values): 80,799 h, 19,526 bass, 34,921 lb,
    252 of 5 lb or more give 321 h a 5-lb bass, 2.42 bass and 4.32 lb an angler-day of ten hours."""
    found = indicators(
        angler_hours=Decimal(80_799),
        fished=10,
        successful=5,
        fish=19_526,
        weighed=19_526,
        pounds=Decimal(34_921),
        large=252,
    )
    assert found.hours_per_large is not None and round(found.hours_per_large) == 321
    assert found.fish_per_day is not None and round(found.fish_per_day, 2) == Decimal("2.42")
    assert found.pounds_per_day is not None and round(found.pounds_per_day, 2) == Decimal("4.32")
    assert found.percent_success == 50


def test_nothing_is_divided_by_nothing() -> None:
    nothing = {"fish": 0, "weighed": 0, "pounds": Decimal(0), "large": 0}
    found = indicators(angler_hours=Decimal(0), fished=0, successful=0, **nothing)  # type: ignore[arg-type]
    assert {getattr(found, name) for name in vars(found)} == {None}
    with pytest.raises(ValueError):
        indicators(angler_hours=Decimal(1), fished=1, successful=2, **nothing)  # type: ignore[arg-type]


@pytest.mark.django_db
def test_the_figures_of_a_small_event() -> None:
    figures = event_catch(world.plain(), Decimal("2"))
    # Five boats of two anglers; day 1 from 6:00 to 15:00, flight B (boats 1, 3, 5) to 15:30. After the cut boats 1 and 2
    # fish on, from 6:00 to 15:00 (the night of changing clocks skips no hour of it). The third day is cancelled.
    assert (figures.boats, figures.anglers) == (5, 10)
    assert figures.angler_hours == (3 * Decimal("9.5") + 2 * 9) * 2 + 2 * 9 * 2
    assert figures.fish == 5 + 5 + 0 + 1 + 2 + 2 and figures.dead == 2 and figures.kept == 1
    assert figures.released_alive == figures.fish - 3
    assert {one.name: one.fish for one in figures.species} == {
        "black crappie": 3, "white crappie": 2, "crappie, not told apart": 10,
    }  # fmt: skip
    assert figures.large == 1 and figures.first_day == date(2026, 3, 7) and figures.last_day == date(2026, 3, 8)
    assert figures.pounds == Decimal("5.5") + Decimal("4.75") + Decimal("0.5") + Decimal("2.5") + 3


@pytest.mark.django_db
@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda layout: layout.key)
def test_every_layout_writes_its_fields(layout) -> None:  # type: ignore[no-untyped-def]
    event = world.plain()
    lines = report_lines(event_catch(event), layout)
    assert len(lines) >= len(layout.fields) and all(label and value not in (None, "") for label, value in lines)
    client = world.member(event.club, "club_reviewer")
    html = client.get(reverse("agency:event_catch", args=[event.slug]), {"layout": layout.key}).content.decode()
    for label, _ in lines:
        assert label.split(",")[0] in html
    if layout.due_days:
        assert f"within {layout.due_days} days" in html


@pytest.mark.django_db
def test_files_season_and_odd_words() -> None:
    event = world.plain()
    client = world.member(event.club)
    assert BY_KEY["connecticut"].due(date(2026, 3, 8)) == date(2026, 3, 15)
    for form, start in (("csv", b"\xef\xbb\xbf"), ("xlsx", b"PK"), ("pdf", b"%PDF")):
        answer = client.get(reverse("agency:event_catch_file", args=[event.slug, form]), {"layout": "alabama"})
        assert answer.content.startswith(start)
    assert client.get(f"/events/{event.slug}/catch/doc").status_code == 404
    page = client.get(reverse("agency:event_catch", args=[event.slug]), {"layout": "atlantis", "large": "big<"})
    assert "is not a number" in page.content.decode() and "big&lt;" in page.content.decode()
    season = season_catch(event.season)
    assert season is not None and season.fish == event_catch(event).fish
    where = reverse("agency:season_catch", args=[event.club.slug, event.season.slug])
    assert "went back alive" in client.get(where).content.decode()


def test_the_page_has_the_club_s_form_of_dates_and_clocks_and_the_files_have_iso(db: None) -> None:
    event = world.plain()
    client = world.member(event.club)
    page = client.get(reverse("agency:event_catch", args=[event.slug])).content.decode()
    assert "Sat, March 7, 2026, 6:00 AM to " in page and "2026-03-07" not in page and "06:00" not in page
    file = client.get(reverse("agency:event_catch_file", args=[event.slug, "csv"]))
    assert "2026-03-07, 06:00 to " in b"".join(file.streaming_content if file.streaming else [file.content]).decode()
