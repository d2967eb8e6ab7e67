"""One small valid event that uses every sheet, as the ground in which faults are planted.

Its second night is the one in which the clocks of Chicago go forward; its third day is cancelled; boats 3
and 4 miss the cut after the first day.
"""

from __future__ import annotations

from decimal import Decimal

Rows = list[dict[str, str]]


def weight(unit: str, pounds: str) -> str:
    """The same figure in the unit's own spelling (pounds or kilograms alike)."""
    value = Decimal(pounds)
    if unit == "lb-oz":
        return f"{int(value)}-{(value % 1 * 16).normalize():f}"
    return f"{value:.2f}" if unit == "lb" else f"{value:.3f}"


def plain_event(unit: str = "lb") -> dict[str, Rows]:
    """Sheet name -> rows of texts."""

    def w(*pounds: str) -> str:
        return ", ".join(weight(unit, one) for one in pounds)

    def keys(**values: str) -> Rows:
        return [{"key": key, "value": value} for key, value in values.items()]

    def slip(number: int, day: int, boat: int, alive: int, dead: int, gross: str, **more: str) -> dict[str, str]:
        counts = {"fish": str(alive + dead), "alive": str(alive), "dead": str(dead)}
        row = {"slip": str(number), "day": str(day), "boat": str(boat)} | counts
        return row | ({"gross": w(gross), "tare": w("0.5")} if gross else {}) | more

    first = {
        "short": "1",
        "largest_weights": w("2"),
        "big_fish": w("1.5"),
        "big_fish_alive": "yes",
        "black_crappie": "3",
        "white_crappie": "2",
        "checked_in": "14:30",
        "bag_issued": "14:40",
        "weighed": "14:45",
        "bag_emptied": "14:46",
        "released": "15:00",
        "dead_at_release": "1",
        "kept": "1",
        "official": "R. Quill",
    }
    corrected = {"replaces": "2", "reason": "misread"}
    return {
        "Event": keys(
            club="Heron Bend Anglers",
            season="2026",
            event="Plain event",
            water="Long Slough",
            date="2026-03-07",
            days="3",
            weight_unit=unit,
            start_time="06:00",
            due_time="15:00",
            time_zone="America/Chicago",
            handling="hold_release",
            lake_temp="62 F",
            entry_fee="60.00",
            added_money="0",
        ),
        "Days": [
            {"day": "1", "status": "fished", "lake_temp": "60 F", "air_temp": "50 F"},
            {"day": "2", "status": "fished"},
            {"day": "3", "status": "cancelled"},
        ],
        "Flights": [{"flight": "A", "due_time": "15:00"}, {"flight": "B", "day": "1", "due_time": "15:30"}],
        "Rules": keys(
            fish_limit="5",
            dead_fish="penalty",
            short_fish="lose_largest",
            short_fish_penalty=w("1"),
            over_limit="remove_largest",
            over_limit_penalty=w("1"),
            negative_totals="floor",
            ties="big_fish, share",
            cut_after_day="1",
            cut_keep="2",
            places_paid="1 per 2",
            place_shares="60, 40",
            big_fish_shares="100",
            season_ties="big_fish, share",
        ),
        "Teams": [
            {"boat": str(n), "team": f"Team {n}", "angler_1": f"Angler {n} A", "angler_2": f"Angler {n} B"}
            | {"flight": "AB"[n % 2], "paid": "yes", "big_fish_pot": "no", "status": "entered", "lot": str(n)}
            for n in range(1, 6)
        ],
        "Slips": [
            slip(1, 1, 1, 4, 1, "6", **first),
            slip(2, 1, 2, 5, 0, "5"),
            slip(3, 1, 2, 5, 0, "5.25", **corrected),
            slip(4, 1, 3, 0, 0, ""),
            slip(5, 1, 4, 1, 0, "1"),
            slip(6, 2, 1, 2, 0, "3"),
            slip(7, 2, 2, 2, 0, "3.5"),
        ],
        "Fish care": [
            {"day": "1", "boat": "1", "pump_ok": "yes", "aeration": "recirculated", "livewell_gal": "24"}
            | {"launched": "06:10", "first_fish": "07:00", "livewell_temp": "58 F", "livewell_do": "7"}
            | {"reflexes_absent": "1", "reflexes_checked": "5"},
            {"day": "1", "boat": "2", "pump_ok": "yes"},
        ],
        "Tanks": [{"day": "1", "tank": "Recovery", "volume_gal": "100", "time": "15:05", "temp": "58 F"}],
        "Holding": [
            {
                "group": "Saturday",
                "kind": "tournament",
                "hours": "72",
                "held": "20",
                "dead": "3",
                "missing": "1",
            },
            {"group": "Control", "kind": "reference", "hours": "72", "held": "20", "dead": "1"},
        ],
    }
