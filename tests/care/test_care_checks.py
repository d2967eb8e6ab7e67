"""Minutes held and in the bag, and every check, held against the words of the scoring contract."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest

from weighin.care.domain.checks import CHECKS, Care, Observed, Times, care
from weighin.events.domain import temperatures
from weighin.rules import rulebook

START = datetime(2026, 6, 20, 6, 0, tzinfo=UTC)


def after(minutes: float) -> datetime:
    return START + timedelta(minutes=minutes)


def of(times: Times | None = None, rules: dict[str, str] | None = None, **seen: object) -> Care:
    return care(rulebook.read(rules or {}, "lb"), times or Times(START), Observed(**seen))  # type: ignore[arg-type]


def verdict(found: Care, name: str) -> bool | None:
    assert not set(found.passed) & set(found.failed)
    return True if name in found.passed else False if name in found.failed else None


def water(text: str) -> temperatures.Temperature:
    return temperatures.water(text)


def test_nothing_recorded_neither_passes_nor_fails() -> None:
    assert of() == Care(None, None, None, (), ())


@pytest.mark.parametrize(
    ("times", "held", "bound"),
    [
        (Times(START, weighed=after(500)), "500.0", True),
        (Times(START, launched=after(5), weighed=after(500)), "495.0", True),
        (Times(START, launched=after(5), first_fish=after(60), weighed=after(500)), "440.0", False),
        (Times(START, first_fish=after(60), weighed=after(500), released=after(520)), "460.0", False),
        (Times(START, released=after(520)), "520.0", True),
        (Times(START, first_fish=after(60)), None, None),
        (Times(START, launched=after(5), bag_issued=after(480)), None, None),
    ],
)
def test_held_is_from_first_fish_launch_or_start_to_release_or_scale(
    times: Times, held: str, bound: bool | None
) -> None:
    found = of(times)
    assert (found.minutes_held, found.held_is_upper_bound) == (None if held is None else Decimal(held), bound)


@pytest.mark.parametrize(
    ("times", "minutes"),
    [
        (Times(START, bag_issued=after(480), weighed=after(486)), "6.0"),
        (Times(START, bag_issued=after(480), weighed=after(486), bag_emptied=after(489)), "9.0"),
        (Times(START, bag_issued=after(480), bag_emptied=after(489)), "9.0"),
        (Times(START, weighed=after(486), bag_emptied=after(489)), None),
        (Times(START, bag_issued=after(480)), None),
    ],
)
def test_the_bag_is_from_issued_to_emptied_else_weighed(times: Times, minutes: str | None) -> None:
    assert of(times).minutes_in_bag == (None if minutes is None else Decimal(minutes))


@pytest.mark.parametrize(
    ("seconds", "minutes"), [(0, "0.0"), (2, "0.0"), (3, "0.1"), (8, "0.1"), (9, "0.2"), (597, "10.0"), (603, "10.1"), (602, "10.0")]
)  # fmt: skip
def test_minutes_have_one_decimal_rounded_half_up(seconds: int, minutes: str) -> None:
    times = Times(START, bag_issued=START, bag_emptied=START + timedelta(seconds=seconds))
    assert of(times).minutes_in_bag == Decimal(minutes)


def test_the_check_compares_the_rounded_minutes() -> None:
    """602 s are 10.03 minutes, rounded 10.0: within a limit of 10."""
    for seconds, kept in ((600, True), (602, True), (603, False)):
        found = of(Times(START, bag_issued=START, bag_emptied=START + timedelta(seconds=seconds)))
        assert verdict(found, "bag") is kept


def test_minutes_are_real_time_across_a_clock_change() -> None:
    zone = ZoneInfo("America/Chicago")
    times = Times(
        START,
        first_fish=datetime(2026, 3, 8, 1, 30, tzinfo=zone),
        released=datetime(2026, 3, 8, 3, 30, tzinfo=zone),
    )
    assert of(times).minutes_held == Decimal("60.0")


@pytest.mark.parametrize(
    ("name", "rules", "seen", "kept"),
    [
        ("pump", {}, {"pump_ok": True}, True),
        ("pump", {}, {"pump_ok": False}, False),
        ("thermometer", {}, {"thermometer_ok": True}, True),
        ("thermometer", {}, {"thermometer_ok": False}, False),
        ("ice", {}, {"ice_lb": Decimal(10), "lake": "75 F"}, True),
        ("ice", {}, {"ice_lb": Decimal(0), "lake": "75 F"}, False),
        ("ice", {}, {"ice_lb": Decimal(0), "lake": "74.9 F"}, None),
        ("ice", {}, {"ice_lb": Decimal(0)}, None),
        ("ice", {}, {"lake": "80 F"}, None),
        ("ice", {"care_warm_f": "80.6"}, {"ice_lb": Decimal(0), "lake": "27 C"}, False),
        ("ice", {"care_warm_f": "80.7"}, {"ice_lb": Decimal(0), "lake": "27 C"}, None),
        ("on_board", {"boat_limit": "7"}, {"most_on_board": 7}, True),
        ("on_board", {"boat_limit": "7"}, {"most_on_board": 8}, False),
        ("on_board", {}, {"most_on_board": 30}, None),
        ("on_board", {"boat_limit": "7"}, {}, None),
        ("cooling", {}, {"lake": "82 F", "livewell": "75 F"}, True),
        ("cooling", {}, {"lake": "82 F", "livewell": "74.9 F"}, False),
        ("cooling", {}, {"lake": "82 F", "livewell": "90 F"}, True),
        ("cooling", {"care_max_cooling_f": "9"}, {"lake": "30 C", "livewell": "25 C"}, True),
        ("cooling", {"care_max_cooling_f": "9"}, {"lake": "30 C", "livewell": "24.9 C"}, False),
        ("cooling", {}, {"livewell": "60 F"}, None),
        ("oxygen", {}, {"livewell_do": Decimal("5.0")}, True),
        ("oxygen", {}, {"livewell_do": Decimal("4.99")}, False),
        ("oxygen", {"care_min_do": "5.5"}, {"livewell_do": Decimal("5.4")}, False),
    ],
)
def test_each_check_at_its_bound(name: str, rules: dict[str, str], seen: dict[str, object], kept: bool | None) -> None:
    read = {key: water(value) if key in ("lake", "livewell") else value for key, value in seen.items()}  # type: ignore[arg-type]
    assert verdict(of(None, rules, **read), name) is kept


def test_the_time_held_is_checked_only_when_a_limit_is_set() -> None:
    times = Times(START, weighed=after(480))
    assert verdict(of(times), "held") is None
    assert verdict(of(times, {"care_max_held_minutes": "480"}), "held") is True
    assert verdict(of(times, {"care_max_held_minutes": "479.9"}), "held") is False


def test_checks_stand_in_their_order() -> None:
    found = of(
        Times(START, bag_issued=after(470), weighed=after(480)),
        {"boat_limit": "7", "care_max_held_minutes": "500"},
        pump_ok=True, thermometer_ok=True, ice_lb=Decimal(5), most_on_board=7, livewell=water("76 F"),
        livewell_do=Decimal(6), lake=water("80 F"),
    )  # fmt: skip
    assert found.passed == CHECKS and found.failed == ()
