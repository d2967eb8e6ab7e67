"""Texts that each key of the rule sheet reads, with what they mean."""

from decimal import Decimal as D

from weighin.rules.rulebook import PlacesPaid

# key -> texts that are read, other than the default, with what they mean; weights in pounds.
READ = {
    "species": [("white crappie", "white crappie")],
    "fish_limit": [("1", 1), ("5", 5), ("10.0", 10)],
    "bag_tare": [("0.32", D("0.32")), ("0.32 lb", D("0.32"))],
    "boat_limit": [("30", 30), ("NONE", None)],
    "minimum_length_in": [("10", D(10)), ("10.5", D("10.5")), ("none", None)],
    "dead_fish": [("not_weighed", "not_weighed"), ("Not weighed", "not_weighed"), ("both", "both")],
    "dead_fish_penalty": [("0.25, 0.50", (D("0.25"), D("0.50"))), ("0,0.25 lb", (D(0), D("0.25"))), ("0", (D(0),))],
    "dead_fish_big_fish": [("yes", True), ("1", True), ("n", False)],
    "short_fish": [("lose_largest", "lose_largest"), ("lose-day", "lose_day")],
    "short_fish_penalty": [("0", D(0)), ("2.5", D("2.5"))],
    "over_limit": [("remove largest", "remove_largest"), ("penalty", "penalty")],
    "over_limit_penalty": [("0.75", D("0.75"))],
    "late_penalty_per_minute": [("0.50", D("0.50")), ("0", D(0))],
    "late_grace_minutes": [("5", D(5)), ("2.5", D("2.5"))],
    "late_disqualify_after_minutes": [("10", D(10)), ("none", None), ("0", D(0))],
    "late_reduces_big_fish": [("Yes", True)],
    "live_fish_bonus": [("0.10", D("0.10"))],
    "negative_totals": [("keep", "keep")],
    "ties": [
        ("share", ("share",)),
        ("lot", ("lot",)),
        (
            "Fish Count, fewest-deductions, first_day, last_day, lot",
            ("fish_count", "fewest_deductions", "first_day", "last_day", "lot"),
        ),
    ],
    "places_paid": [
        ("6", PlacesPaid(number=6)),
        ("1 per 4", PlacesPaid(one_per=4)),
        ("1  Per 4", PlacesPaid(one_per=4)),
    ],
    "payback_percent": [("80", D(80)), ("0", D(0)), ("33.3", D("33.3"))],
    "place_shares": [("40, 30, 20, 10", (D(40), D(30), D(20), D(10))), ("0, 1", (D(0), D(1))), ("none", None)],
    "rounding": [("5", D(5)), ("0.01", D("0.01"))],
    "big_fish_pot_fee": [("10", D(10)), ("7.77", D("7.77"))],
    "big_fish_shares": [("60, 40", (D(60), D(40)))],
    "points_table": [("200, 195, 190.5", (D(200), D(195), D("190.5"))), ("none", None)],
    "points_first": [("60", D(60))],
    "points_step": [("2", D(2)), ("0.5", D("0.5")), ("0", D(0))],
    "points_floor": [("10", D(10))],
    "points_no_fish": [("25", D(25)), ("last", None), ("Last", None)],
    "points_not_weighed": [("2.5", D("2.5"))],
    "points_absent_below_last": [("5", D(5)), ("none", None)],
    "points_per_pound": [("1", D(1))],
    "points_big_fish": [("3", D(3))],
    "count_best": [("8", 8), ("none", None)],
    "season_ties": [("total_weight, big_fish", ("total_weight", "big_fish")), ("share", ("share",))],
    "care_warm_f": [("80", D(80))],
    "care_max_cooling_f": [("10", D(10))],
    "care_min_do": [("5.5", D("5.5"))],
    "care_max_bag_minutes": [("7.5", D("7.5"))],
    "care_max_held_minutes": [("420", D(420)), ("none", None)],
    "care_stop_percent": [("5", D(5))],
    "deep_fish_kept_ft": [("25", D(25)), ("none", None)],
    "measured_lengths_above": [("85", D(85)), ("none", None)],
}
