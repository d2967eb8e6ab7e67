"""Small events with fixed figures, each for readings that a random event seldom tells apart.

`PLANTED` has for each the readings of `test_other_readings.READINGS` that change its figures. Nothing in it is drawn,
so no further case, column or rule can take the difference away.
"""

from __future__ import annotations

from dataclasses import dataclass

Rows = list[dict[str, str]]
HELD = {"group": "Saturday", "hours": "72", "held": "20"}


@dataclass(frozen=True)
class PlantedReading:
    """An event's sheets, and the other readings that have to be noticed in it."""

    tells: tuple[str, ...]
    sheets: dict[str, Rows]


def event(
    *slips: dict[str, str], rules: dict[str, str], said: dict[str, str] | None = None, boats: int = 4, **sheets: Rows
) -> dict[str, Rows]:
    """An event of one day, or of as many as ``said`` has; a sheet's rows are merged into the boats' own, by boat."""
    head = {
        "club": "Heron Bend Anglers",
        "season": "2026",
        "event": "Planted",
        "water": "Long Slough",
        "date": "2026-06-13",
        "days": str(max(int(slip["day"]) for slip in slips)),
        "weight_unit": "lb",
        "start_time": "06:00",
        "due_time": "15:00",
        "time_zone": "America/Chicago",
    } | (said or {})
    more = {row["boat"]: row for row in sheets.pop("teams", [])}
    teams = [{"boat": str(n), "team": f"Team {n}", "angler_1": f"Angler {n}"} for n in range(1, boats + 1)]
    return {
        "Event": [{"key": key, "value": value} for key, value in head.items()],
        "Rules": [{"key": key, "value": value} for key, value in ({"ties": "share"} | rules).items()],
        "Teams": [row | more.get(row["boat"], {}) for row in teams],
        "Slips": [{"slip": str(n)} | slip for n, slip in enumerate(slips, start=1)],
        **{name.replace("_", " "): rows for name, rows in sheets.items()},
    }


def slip(boat: int, gross: str = "", alive: int = 5, dead: int = 0, day: int = 1, **more: str) -> dict[str, str]:
    """A bag of ``alive`` and ``dead`` fish; without ``gross`` there is no fish."""
    alive = alive if gross else 0
    counts = {"fish": str(alive + dead), "alive": str(alive), "dead": str(dead)}
    return {"day": str(day), "boat": str(boat)} | counts | ({"gross": gross} if gross else {}) | more


def held(kind: str, dead: int) -> dict[str, str]:
    return HELD | {"kind": kind, "dead": str(dead)}


PLANTED = {
    "late by seconds": PlantedReading(
        ("day lost after the grace", "day lost at the minute", "day lost by whole minutes"),
        event(
            slip(1, "5.00", checked_in="15:10:30"),
            slip(2, "5.00", checked_in="15:10"),
            rules={"late_disqualify_after_minutes": "10", "late_grace_minutes": "5", "late_penalty_per_minute": "0.10"},
        ),
    ),
    "over the limit and late": PlantedReading(
        ("late before over_limit",),
        event(slip(1, "5.00", 8, checked_in="15:04"), rules={"over_limit": "disqualify_day", "fish_limit": "7"}),
    ),
    "over the limit and short": PlantedReading(
        ("removed under short_fish", "short fish taken first", "only legal dead fish cost"),
        event(
            slip(1, "3.00", 9, short="7"),
            slip(2, "9.00", 9, short="1", largest_weights="2.00, 1.75, 1.50"),
            slip(3, "1.00", 0, 2, short="1"),
            rules={"over_limit": "remove_largest", "short_fish": "lose_largest", "fish_limit": "7"},
        ),
    ),
    "alive on a lost day": PlantedReading(
        ("live fish of lost days",),
        event(
            slip(1, "5.00"),
            slip(2, "5.00"),
            slip(1, "3.00", day=2, disqualified_reason="fished outside the marked water"),
            rules={"ties": "live_fish"},
        ),
    ),
    # Boat 3 went out on 6.00, which was corrected to 2.00 afterwards; boat 2 fishes on and ends below boat 4, which
    # missed the cut
    "a cut that moved": PlantedReading(
        ("cut by k teams, not by totals", "who went out stays nowhere", "nobody misses the cut in the ranking"),
        event(
            slip(1, "5.00"),
            slip(2, "4.00"),
            slip(3, "6.00"),
            slip(4, "3.00"),
            slip(3, "2.00", replaces="3", reason="misread"),
            slip(1, "3.00", day=2),
            slip(2, day=2, extra_penalty="2.00", extra_penalty_reason="wake"),
            slip(3, "3.00", day=2),
            rules={"cut_after_day": "1", "cut_keep": "2", "negative_totals": "keep"},
        ),
    ),
    "ties by deductions and lots": PlantedReading(
        ("lot highest first", "no lot before a lot", "deductions more is better"),
        event(
            slip(1, "5.00"),
            slip(2, "5.00"),
            slip(3, "5.00"),
            slip(4, "5.50", extra_penalty="0.50", extra_penalty_reason="wake"),
            rules={"ties": "fewest_deductions, lot"},
            teams=[{"boat": "1", "lot": "2"}, {"boat": "2", "lot": "1"}, {"boat": "4", "lot": "1"}],
        ),
    ),
    "a first day that was cancelled": PlantedReading(
        ("a cancelled day is a first day",),
        event(
            *(slip(1, "5.00", day=2), slip(1, "3.00", day=3), slip(2, "3.00", day=2), slip(2, "5.00", day=3)),
            rules={"ties": "first_day"},
            Days=[{"day": "1", "status": "cancelled"}],
        ),
    ),
    "points of kilograms": PlantedReading(
        ("whole kilograms", "no fish gets no last"),
        event(
            *(slip(1, "5.000"), slip(2)),
            rules={"points_per_pound": "1", "points_no_fish": "last"},
            said={"weight_unit": "kg"},
        ),
    ),
    "a flight's own day": PlantedReading(
        ("flight of every day first",),
        event(
            slip(1, "5.00", checked_in="15:20"),
            rules={"late_penalty_per_minute": "0.10"},
            teams=[{"boat": "1", "flight": "A"}],
            Flights=[{"flight": "A", "due_time": "15:00"}, {"flight": "A", "day": "1", "due_time": "15:30"}],
        ),
    ),
    "a lake at the limit": PlantedReading(
        ("event's lake first", "warm only above"),
        event(
            slip(1, "5.00"),
            rules={"care_warm_f": "75"},
            said={"lake_temp": "60 F"},
            Days=[{"day": "1", "lake_temp": "75 F"}],
            Fish_care=[{"day": "1", "boat": "1", "ice_lb": "8"}],
        ),
    ),
    "an hour that comes twice": PlantedReading(
        ("second passing",),
        event(
            slip(1, "5.00", checked_in="01:10"),
            rules={"late_penalty_per_minute": "0.01", "late_disqualify_after_minutes": "none"},
            said={"date": "2026-10-31", "start_time": "19:00", "due_time": "00:30"},
        ),
    ),
    "excuses of slip and roll": PlantedReading(
        ("the first excuse", "the roll's excuse first"),
        event(
            *(slip(1, "5.00"), slip(2, "5.00", excused_minutes="2")),
            rules={"late_penalty_per_minute": "0.10", "late_disqualify_after_minutes": "none"},
            **{
                "Check-ins": [
                    {"day": "1", "boat": boat, "checked_in": "15:20", "excused_minutes": "5"} for boat in ("1", "2")
                ]
                + [{"day": "1", "boat": "1", "excused_minutes": "15"}]
            },
        ),
    ),
    "fewer dead in the pens than of the reference": PlantedReading(
        ("never a negative Abbott", "total below initial"),
        event(slip(1, "5.00", 4, 1), rules={}, Holding=[held("tournament", 1), held("reference", 2)]),
    ),
    "too many reference fish dead": PlantedReading(
        ("too many reference fish dead",),
        event(slip(1, "5.00", 4, 1), rules={}, Holding=[held("tournament", 8), held("reference", 6)]),
    ),
}
