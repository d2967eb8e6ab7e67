"""Series: made, edited and removed by page and command, with their history; every fault at once."""

from io import StringIO

import pytest
import world
from django.core.management import CommandError, call_command
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.seasons.models import Series
from weighin.seasons.queries.standings import season_standings

from .test_contract import held

pytestmark = pytest.mark.django_db


def where(event: Event, name: str, *more: str) -> str:
    return reverse(f"seasons:{name}", args=[event.club.slug, event.season.slug, *more])


def test_a_series_is_made_edited_and_removed_with_its_history(event: Event) -> None:
    other = world.event("Second", date="2026-07-20")
    director = world.member(event.club)
    form = {"name": " Night  series ", "events": [event.slug], "count_best": "1", "ties": "total_weight, share"}
    there = director.post(where(event, "series_new"), form)
    assert there.url == where(event, "series", "night-series")
    assert "Series: Night series." in director.get(there.url).content.decode()
    (series,) = Series.objects.all()
    assert (series.count_best, series.ties) == ("1", "total_weight, share")
    assert season_standings(event.season, series).rules.season_ties == ("total_weight", "share")
    form |= {"name": "Night", "events": [event.slug, other.slug], "count_best": "", "ties": ""}
    assert director.post(where(event, "series_edit", "night-series"), form).status_code == 302
    series.refresh_from_db()
    assert (series.name, series.slug, series.count_best, series.parts.count()) == ("Night", "night-series", "", 2)
    assert "checked" in director.get(where(event, "series_edit", "night-series")).content.decode()
    director.post(where(event, "series_edit", "night-series"), form)  # says the same: no line
    assert director.post(where(event, "series_remove", "night-series")).url == where(event, "standings")
    said = HistoryEntry.objects.filter(act__startswith="series.").order_by("id").values_list("sentence", flat=True)
    assert [line.partition(":")[0] for line in said] == [
        "Series Night series of 2026 made",
        "Series Night series of 2026",
        "Series Night of 2026 removed",
    ]
    assert "count best is blank, was 1" in said[1]
    assert director.get(where(event, "series", "night-series")).status_code == 404


def test_all_faults_of_a_series_at_once_and_what_was_typed_stays(event: Event) -> None:
    Series.objects.create(season=event.season, name="Night", slug="night")
    director = world.member(event.club)
    html = director.post(
        where(event, "series_new"), {"name": "NIGHT", "count_best": "half", "ties": "share, big_fish"}
    ).content.decode()
    assert "has a series called NIGHT already" in html
    assert "a series needs at least one event" in html.lower()
    assert "half" in html and "share, big_fish" in html
    assert Series.objects.count() == 1
    assert "a series needs a name" in director.post(where(event, "series_new"), {}).content.decode().lower()


def test_blank_terms_are_the_seasons_and_none_counts_all_events() -> None:
    for number in (3, 4):
        event = held(number, ["Alder", "Birch"], count_best="1")
    slugs = ["round-3-2026", "round-4-2026"]
    call_command("series", event.club.slug, event.season.slug, "Night", *slugs, stdout=StringIO())
    assert season_standings(event.season, Series.objects.get()).teams[0].points == 100
    call_command(
        "series", event.club.slug, event.season.slug, "Night", *slugs, "--count-best", "none", stdout=StringIO()
    )
    assert season_standings(event.season, Series.objects.get()).teams[0].points == 200


def test_only_directors_make_series(event: Event) -> None:
    official = world.member(event.club, Role.WEIGH_OFFICIAL)
    assert official.get(where(event, "series_new")).status_code == 403
    assert "Add a series" not in official.get(where(event, "standings")).content.decode()
    assert world.stranger().get(where(event, "standings")).status_code == 404


def test_the_command_writes_a_series_anew_and_names_every_fault(event: Event) -> None:
    club, season = event.club.slug, event.season.slug
    out = StringIO()
    call_command("series", club, season, "Night", event.slug, "--count-best", "2", stdout=out)
    assert out.getvalue().splitlines()[-1] == "Night"
    call_command("series", club, season, "night", event.slug, stdout=out)
    assert list(Series.objects.values_list("name", "count_best")) == [("night", "")]
    with pytest.raises(CommandError) as refused:
        call_command("series", club, season, " ", "elsewhere", event.slug, event.slug, "--ties", "weight")
    assert all(f"{name}: " in str(refused.value) for name in ("NAME", "EVENT", "--ties"))
    assert "is named twice" in str(refused.value) and "elsewhere is not an event of" in str(refused.value)


def test_an_event_made_by_mistake_goes_with_its_place_in_a_series() -> None:
    from weighin.events.services.deletion import remove_event

    planned = world.bare_event()
    call_command("series", planned.club.slug, planned.season.slug, "Night", planned.slug, stdout=StringIO())
    remove_event(planned, planned.name, "by mistake", "test")
    assert not Event.objects.exists() and Series.objects.get().parts.count() == 0
