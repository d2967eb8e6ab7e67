"""The season's standings worked out again, by somebody who has read the contract and scoring.md and none of the project.

A season is a list of events in their order, plain values as drawn: ``{"slug", "cancelled", "rules": {...}, "teams":
[{"team", "anglers", "youth", "status", "slip"}]}``; a slip is ``None``, or ``{"fish", "weight", "big", "ruled_out"}``
with everything alive and weights in pounds.
"""

from decimal import Decimal
from fractions import Fraction
from math import floor

FIRST, STEP, FLOOR = "points_first", "points_step", "points_floor"


def place_points(rules, place):
    table = rules.get("points_table")
    if table:
        value = table[place - 1] if place <= len(table) else table[-1] - (place - len(table)) * rules[STEP]
    else:
        value = rules[FIRST] - (place - 1) * rules[STEP]
    return max(value, rules[FLOOR])


def status(team):
    if team["status"] in ("withdrawn", "disqualified", "absent"):
        return team["status"]
    slip = team["slip"]
    if slip is None:
        return "not_weighed"
    if slip["fish"] == 0:
        return "no_fish"
    return "disqualified" if slip["ruled_out"] else "ranked"


def counting(team):
    """Total and counting big fish of the one day; a lost day has neither."""
    slip = team["slip"]
    if slip is None or slip["fish"] == 0 or slip["ruled_out"]:
        return Fraction(0), None
    return Fraction(slip["weight"]), None if slip["big"] is None else Fraction(slip["big"])


def event_rows(event):
    """(team, status, place, points, total, big fish) of every team of an event."""
    rules = event["rules"]
    found = [(team, status(team), *counting(team)) for team in event["teams"]]
    ranked = [(total, big or 0) for _, state, total, big in found if state == "ranked"]  # ties: big_fish, share
    places = {key: 1 + sum(1 for other in ranked if other > key) for key in ranked}
    least = min((place_points(rules, place) for place in places.values()), default=rules[FLOOR])
    largest = max((big for _, state, _, big in found if state == "ranked" and big is not None), default=None)
    rows = []
    for team, state, total, big in found:
        place = places[(total, big or 0)] if state == "ranked" else None
        points = Fraction(0)
        if state == "ranked":
            points = place_points(rules, place) + rules["points_per_pound"] * floor(total)
            if big is not None and big == largest:
                points += rules["points_big_fish"]
        elif state == "no_fish":
            points = least if rules["points_no_fish"] == "last" else rules["points_no_fish"]
        elif state == "not_weighed":
            points = rules["points_not_weighed"]
        elif state == "absent" and rules["points_absent_below_last"] is not None:
            points = max(Fraction(0), least - rules["points_absent_below_last"])
        rows.append((team, state, place, Fraction(points), total, big))
    return rows


def parted(results, count_best):
    """Which of (order, status, points) count, by order: ruled out ones always, then the most points, of equal ones the earlier."""
    fixed = [one for one in results if one[1] == "disqualified"]
    others = sorted((one for one in results if one[1] != "disqualified"), key=lambda one: (-one[2], one[0]))
    room = len(others) if count_best is None else max(0, count_best - len(fixed))
    return {one[0] for one in fixed} | {one[0] for one in others[:room]}


def listed(fished, to_come, terms, keys, who):
    """The rows of everybody whom ``keys`` finds in a team of an event."""
    results = {}
    for order, event in enumerate(fished):
        for team, state, place, points, total, big in event_rows(event):
            for key in keys(team):
                results.setdefault(key, []).append((order, state, points, event["slug"], place, total, big))
    for event in to_come:
        for team in event["teams"]:
            for key in keys(team):
                results.setdefault(key, [])
    wins = [place_points(event["rules"], 1) for event in to_come]
    said = all(not e["rules"]["points_per_pound"] and not e["rules"]["points_big_fish"] for e in to_come)
    rows = []
    for key, mine in results.items():
        counts = parted(mine, terms["count_best"])
        won = [(len(fished) + n, "ranked", points) for n, points in enumerate(wins)]
        at_best = parted([*mine, *won], terms["count_best"])
        out = [{"event": one[3], "place": one[4], "points": one[2]} for one in mine]
        rows.append(
            {
                who: key,
                "points": sum((one[2] for one in mine if one[0] in counts), Fraction(0)),
                "counted": [row for row, one in zip(out, mine, strict=True) if one[0] in counts],
                "dropped": [row for row, one in zip(out, mine, strict=True) if one[0] not in counts],
                "big_fish": max((one[6] for one in mine if one[6] is not None), default=None),
                "total_weight": sum((one[5] for one in mine), Fraction(0)),
                "best_possible": sum((one[2] for one in [*mine, *won] if one[0] in at_best), Fraction(0))
                if said
                else None,
            }
        )
    for row in rows:
        others = [other["points"] for other in rows if other is not row]
        row["in_reach"] = all(row["best_possible"] >= other for other in others) if said else None
    places(rows, lambda row: (row["points"], *(row[tie] or 0 for tie in terms["ties"] if tie != "share")))
    return rows


def places(rows, standing):
    keys = [standing(row) for row in rows]
    for row, key in zip(rows, keys, strict=True):
        row["place"] = 1 + sum(1 for other in keys if other > key)
        row["tied"] = keys.count(key) > 1


def season_again(events, count_best=None, ties=None, only=None):
    """Teams, anglers and the youth of a season; of the events ``only``, by their own terms where these are given."""
    events = [event for event in events if not event["cancelled"]]
    begun = [event for event in events if any(team["slip"] is not None for team in event["teams"])]
    latest = (begun or events or [{"rules": {"count_best": None, "season_ties": []}}])[-1]["rules"]
    terms = {"count_best": count_best or latest["count_best"], "ties": ties or latest["season_ties"]}
    mine = [event for event in events if only is None or event["slug"] in only]
    fished, to_come = [event for event in mine if event in begun], [event for event in mine if event not in begun]
    teams = listed(fished, to_come, terms, lambda team: [team["team"]], "team")
    anglers = listed(fished, to_come, terms, lambda team: team["anglers"], "angler")
    youth = {team["team"] for event in mine for team in event["teams"]} - {
        team["team"] for event in mine for team in event["teams"] if not team["youth"]
    }
    whole = {row["team"]: row["place"] for row in teams}
    inside = [dict(row) for row in teams if row["team"] in youth]
    places(inside, lambda row: -whole[row["team"]])
    return {"teams": teams, "anglers": anglers, "classes": {"youth": inside}}


def plain(value):
    """Figures of either side in one form, to be held against each other."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    if isinstance(value, float):
        return Fraction(Decimal(repr(value)))
    return Fraction(value) if isinstance(value, int) and not isinstance(value, bool) else value
