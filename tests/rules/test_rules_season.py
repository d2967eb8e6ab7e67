"""The season's points: best events counted, disqualifications kept, ties."""

from decimal import Decimal as D

from weighin.rules.points import Appearance, season_points

from .plain import rules


def event(points, total="0", big=None, status="ranked", name=""):
    return Appearance(name or f"{points}", D(points), status, D(total), None if big is None else D(big))


def season(teams, **written):
    return season_points(rules(**written), teams)


def figures(rows):
    return [(row.team, row.place, row.points) for row in rows]


def test_all_events_count_when_nothing_is_set():
    (row,) = season({"Herons": [event("100"), event("97"), event("0")]})
    assert (row.points, len(row.counted), row.dropped) == (197, 3, ())


def test_the_best_count_and_the_rest_are_dropped():
    (row,) = season({"Herons": [event("90"), event("100"), event("80"), event("95")]}, count_best="2")
    assert row.points == 195
    assert [a.points for a in row.counted] == [100, 95]
    assert [a.points for a in row.dropped] == [90, 80]


def test_fewer_events_than_count():
    (row,) = season({"Herons": [event("90"), event("80")]}, count_best="8")
    assert (row.points, row.dropped) == (170, ())


def test_an_event_one_was_disqualified_in_is_among_the_counted_and_cannot_be_dropped():
    (row,) = season({"Herons": [event("90"), event("100"), event("0", status="disqualified")]}, count_best="2")
    assert row.points == 100
    assert [a.points for a in row.counted] == [100, 0]
    assert [a.points for a in row.dropped] == [90]


def test_more_disqualifications_than_events_counted_leave_nothing():
    out = [event("0", status="disqualified")] * 3
    (row,) = season({"Herons": [event("100"), *out]}, count_best="2")
    assert row.points == 0
    assert [a.points for a in row.dropped] == [100]


def test_other_zeros_can_be_dropped():
    for status in ("absent", "not_weighed", "no_fish", "withdrawn"):
        (row,) = season({"Herons": [event("90"), event("0", status=status)]}, count_best="1")
        assert row.points == 90


def test_places_go_by_points_and_equal_points_by_the_seasons_largest_fish():
    rows = season(
        {
            "Reeds": [event("100", big="1.5"), event("50", big="1.2")],
            "Herons": [event("75", big="1.9"), event("75")],
            "Slow Water": [event("160")],
            "Late Start": [event("10")],
        }
    )
    assert figures(rows) == [("Slow Water", 1, 160), ("Herons", 2, 150), ("Reeds", 3, 150), ("Late Start", 4, 10)]
    assert not any(row.tied for row in rows)
    assert [row.big_fish for row in rows] == [None, D("1.9"), D("1.5"), None]


def test_the_seasons_largest_fish_is_of_all_events_dropped_ones_too():
    teams = {"Reeds": [event("90", big="1.5")], "Herons": [event("90"), event("10", big="1.9")]}
    assert figures(season(teams, count_best="1")) == [("Herons", 1, 90), ("Reeds", 2, 90)]


def test_ties_by_total_weight():
    teams = {"Reeds": [event("90", "9", "1.9")], "Herons": [event("90", "9.5", "1.0")]}
    rows = season(teams, season_ties="total_weight, big_fish")
    assert figures(rows) == [("Herons", 1, 90), ("Reeds", 2, 90)]
    assert rows[0].total_weight == D("9.5")
    assert figures(season(teams))[0][0] == "Reeds"


def test_what_is_still_equal_shares_the_place_by_name_and_the_next_place_is_left_out():
    teams = {
        "reeds": [event("90")],
        "Herons": [event("90")],
        "Slow Water": [event("100")],
        "Last": [event("1")],
    }
    rows = season(teams)
    assert figures(rows) == [("Slow Water", 1, 100), ("Herons", 2, 90), ("reeds", 2, 90), ("Last", 4, 1)]
    assert [row.tied for row in rows] == [False, True, True, False]


def test_share_settles_nothing_by_fish():
    teams = {"Reeds": [event("90", big="1.9")], "Herons": [event("90", big="1.0")]}
    assert [row.place for row in season(teams, season_ties="share")] == [1, 1]


def test_no_big_fish_counts_as_nothing():
    teams = {"Reeds": [event("90")], "Herons": [event("90", big="0.8")]}
    assert figures(season(teams))[0][0] == "Herons"


def test_a_team_without_an_event_and_a_season_without_a_team():
    (row,) = season({"Herons": []})
    assert (row.points, row.place, row.counted, row.big_fish) == (0, 1, (), None)
    assert season({}) == []
