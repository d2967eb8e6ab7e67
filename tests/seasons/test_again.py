"""Random seasons come out as a program says that knows only the contract and scoring.md."""

import json
from fractions import Fraction
from io import StringIO
from random import Random

import pytest
from django.core.management import call_command

from seasons.drawn_seasons import brought_in, drawn
from seasons.season_again import plain, season_again

pytestmark = pytest.mark.django_db


def said(event, *more):
    out = StringIO()
    call_command("season_standings", event.club.slug, event.season.slug, *more, "--format", "json", stdout=out)
    found = json.loads(out.getvalue())
    for rows in (found["teams"], found["anglers"], *found["classes"].values()):
        for row in rows:
            for weight in ("big_fish", "total_weight"):
                assert row[weight] is None or isinstance(row[weight], str)
                row[weight] = None if row[weight] is None else Fraction(row[weight])
    return plain(found)


def in_one_order(found, who):
    return sorted(plain(found), key=lambda row: (row["place"], row[who]))


def hold(found, again):
    assert set(found) == {"teams", "anglers", "classes"} and set(found["classes"]) == {"youth"}
    for name, who in (("teams", "team"), ("anglers", "angler")):
        assert [row["place"] for row in found[name]] == sorted(row["place"] for row in found[name])
        assert in_one_order(found[name], who) == in_one_order(again[name], who)
    assert in_one_order(found["classes"]["youth"], "team") == in_one_order(again["classes"]["youth"], "team")


@pytest.mark.parametrize("seed", range(40))
def test_a_random_season_and_a_series_of_it(seed: int) -> None:
    chance = Random(seed)
    events = without_namesakes(drawn(chance))
    kept = brought_in(events)
    hold(said(kept[0]), season_again(events))
    only = [event["slug"] for event in events if chance.random() < 0.6] or ["round-1-2026"]
    best, ties = chance.choice((None, 1, 2)), chance.choice((None, ["total_weight", "share"]))
    terms = [*(["--count-best", str(best)] if best else []), *(["--ties", ", ".join(ties)] if ties else [])]
    call_command("series", kept[0].club.slug, kept[0].season.slug, "Night", *only, *terms, stdout=StringIO())
    hold(said(kept[0], "--series", "Night"), season_again(events, best, ties, only))


def without_namesakes(events):
    """A guest fishes in one boat of an event: of two people with one name the contract says nothing."""
    for event in events:
        seen = set()
        for team in event["teams"]:
            team["anglers"] = [name for name in team["anglers"] if name not in seen]
            seen |= set(team["anglers"])
    return events
