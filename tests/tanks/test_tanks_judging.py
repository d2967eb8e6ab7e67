"""What a tank reading means, and when it is wrong: each bound from both sides, each figure against its source."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar, Day
from weighin.events.domain.care_context import CareContext
from weighin.events.models import Event
from weighin.rules import rulebook
from weighin.tanks.domain.judging import alarms, overdue
from weighin.tanks.domain.measured import Measured, measured
from weighin.tanks.domain.water import build_up, water_due
from weighin.tanks.models import TankReading, Treatment

AT = datetime(2026, 6, 20, 20, 0, tzinfo=UTC)


def care_context(lake: str = "", elevation: float | None = None, **rules: str) -> CareContext:
    day = Day(1, AT.date(), datetime(2026, 6, 20, 6).time(), datetime(2026, 6, 20, 15).time())
    known = temperatures.water(lake) if lake else None
    calendar = Calendar(ZoneInfo("America/Chicago"), [day])
    return CareContext(Event(name="Shore"), calendar, rulebook.read(rules, "lb"), {1: known}, elevation, AT)


def reading(at: datetime = AT, **written: str) -> TankReading:
    return TankReading(day=1, tank="Line", time=at, **written)


def seen(place: CareContext | None = None, **written: str) -> Measured:
    return measured(reading(**written), place or care_context())


def names(lake: str = "", rules: dict[str, str] | None = None, **written: str) -> list[str]:
    place = care_context(lake, **(rules or {}))
    return [alarm.name for alarm in alarms(seen(place, **written), place.rules, place.lake(1))]


def test_saturation_is_that_of_the_published_tables() -> None:
    """EN 25814 / ISO 5814: 8.26 mg/L at 25 °C and sea level; US Geological Survey's method: 8.358 at 20 °C and 700 mmHg."""
    assert seen(temp="25 C", do="8.26").full_do == pytest.approx(8.26, abs=0.005)
    assert seen(temp="25 C", do="4.13").saturation == pytest.approx(0.5, abs=0.001)
    # 700 mmHg stands at about 2250 ft in the US Standard Atmosphere 1976
    high = seen(care_context(elevation=2252), temp="20 C", do="5")
    assert high.full_do == pytest.approx(8.358, abs=0.005)


def test_salt_takes_oxygen() -> None:
    """Standard Methods 4500-O: 7.396 mg/L at 20 °C and a salinity of 35; 3.5 % salt is a salinity of 35."""
    assert seen(temp="20 C", do="5", salt_percent="3.5").full_do == pytest.approx(7.396, abs=0.001)


def test_the_unionised_share_is_that_of_the_published_table() -> None:
    """UF/IFAS FA16: .0381 at 20 °C and pH 8, .0502 at 24 °C."""
    assert seen(temp="20 C", ph="8.0").unionised_share == pytest.approx(0.0381, abs=0.0001)
    found = seen(temp="24 C", ph="8.0", total_ammonia="1.0")
    assert found.unionised_share == pytest.approx(0.0502, abs=0.0002)
    # as NH3, which weighs 17.031 for every 14.007 of nitrogen
    assert found.unionised == pytest.approx(0.0502 * 17.031 / 14.007, abs=0.0005)


def test_what_is_not_measured_is_not_worked_out() -> None:
    empty = seen()
    assert not alarms(empty, rulebook.read({}, "lb"), temperatures.water("86 F"))
    assert (empty.saturation, empty.unionised, empty.filled) == (None, None, None)
    # A workbook may bring water that the equations do not reach: it is shown, and not worked out
    hot = seen(temp="44 C", do="5", ph="8", total_ammonia="1")
    assert hot.fahrenheit == pytest.approx(111.2) and hot.saturation is None and hot.unionised is None


@pytest.mark.parametrize(
    ("lake", "rules", "written", "found"),
    [
        ("", {}, {"do": "5.0"}, []),
        ("", {}, {"do": "4.99"}, ["oxygen"]),
        ("", {"care_min_do": "5.5"}, {"do": "5.4"}, ["oxygen"]),
        ("", {}, {"temp": "85 F"}, []),
        ("", {}, {"temp": "85.1 F"}, ["hot"]),
        ("", {}, {"temp": "29.5 C"}, ["hot"]),
        ("82 F", {}, {"temp": "75 F"}, []),
        ("82 F", {}, {"temp": "74.9 F"}, ["cold"]),
        ("60 F", {}, {"temp": "52 F"}, ["cold"]),
        ("82 F", {"care_max_cooling_f": "10"}, {"temp": "72 F"}, []),
        ("82 F", {}, {"temp": "77 F"}, []),
        ("82 F", {}, {"temp": "77.1 F"}, ["warm"]),
        ("82 F", {}, {"temp": "84 F"}, ["warm"]),
        ("75 F", {}, {"temp": "75 F"}, []),
        ("75.1 F", {}, {"temp": "75 F"}, ["warm"]),
        ("80 F", {"care_warm_f": "82"}, {"temp": "80 F"}, []),
        ("", {}, {"fish_lb": "79", "volume_gal": "100"}, []),
        ("", {}, {"fish_lb": "80", "volume_gal": "100"}, ["filling"]),
        ("", {}, {"fish_lb": "100", "volume_gal": "100"}, ["full"]),
        ("", {}, {"fish_lb": "100"}, []),
        ("", {}, {"salt_percent": "1"}, []),
        ("", {}, {"salt_percent": "3"}, ["salt"]),
        # 1.0 mg/L total nitrogen at 24 °C and pH 8 is 0.061 mg/L as NH3, 0.8 is 0.049
        ("", {}, {"temp": "24 C", "ph": "8", "total_ammonia": "0.8"}, []),
        ("", {}, {"temp": "24 C", "ph": "8", "total_ammonia": "1.0"}, ["ammonia"]),
    ],
)
def test_each_alarm_at_its_bound(lake: str, rules: dict[str, str], written: dict[str, str], found: list[str]) -> None:
    assert names(lake, rules, **written) == found


def test_what_must_be_done_at_once_comes_first_and_says_what_to_do() -> None:
    place = care_context("86 F")
    found = alarms(
        seen(place, temp="78 F", do="4.4", ph="7.9", total_ammonia="1.6", fish_lb="101", volume_gal="100"),
        place.rules,
        place.lake(1),
    )
    assert [(alarm.level, alarm.name) for alarm in found] == [
        ("stop", "oxygen"),
        ("stop", "full"),
        ("stop", "ammonia"),
        ("heed", "cold"),
    ]
    said = {alarm.name: f"{alarm.finding} {alarm.act}".replace("\xa0", " ") for alarm in found}
    assert "4.4 mg/L, below the 5 to keep" in said["oxygen"] and "no flame, smoke, oil or grease" in said["oxygen"]
    assert "101 lb of fish in 100 gal" in said["full"] and "drained, never lifted" in said["full"]
    assert "from memory" in said["ammonia"] and "Change half the water now" in said["ammonia"]
    assert "8 °F below the lake at 86 °F; at most 7 °F" in said["cold"]


def test_differences_are_said_in_the_thermometers_own_unit() -> None:
    place = care_context("30 C")
    (alarm,) = alarms(seen(place, temp="25 C"), place.rules, place.lake(1))
    assert "5 °C below the lake at 30 °C; at most 3.9 °C" in alarm.finding.replace("\xa0", " ")


def test_a_reading_grows_old_only_while_the_day_goes_on_and_fish_are_in() -> None:
    fish, none = seen(fish_lb="20"), seen(fish_lb="0")
    assert overdue(fish, AT + timedelta(minutes=30), going=True) is None
    late = overdue(fish, AT + timedelta(minutes=31), going=True)
    assert late is not None and "31 min old" in late.finding.replace("\xa0", " ") and "common practice" in late.act
    assert overdue(fish, AT + timedelta(hours=3, minutes=5), going=False) is None
    assert overdue(none, AT + timedelta(hours=3), going=True) is None
    hours = overdue(fish, AT + timedelta(hours=3, minutes=5), going=True)
    assert hours is not None and "3 h 5 min old" in hours.finding.replace("\xa0", " ")


def test_half_the_water_is_due_two_to_three_hours_after_the_last_change_or_the_first_fish() -> None:
    """Keeping Bass Alive (Gilliland, Schramm & Shupp 2002): half the water every two to three hours."""
    empty, first = (
        measured(reading(fish_lb="0"), care_context()),
        measured(reading(AT + timedelta(minutes=30), fish_lb="9"), care_context()),
    )
    assert water_due([empty], []) is None
    due = water_due([empty, first], [])
    assert due is not None and not due.was_changed
    assert (due.first - first.at, due.last - first.at) == (timedelta(hours=2), timedelta(hours=3))
    ice = Treatment(what="ice", started=AT + timedelta(hours=1))
    change = Treatment(what="water", started=AT + timedelta(hours=1), ended=AT + timedelta(minutes=70))
    due = water_due([empty, first], [ice, change])
    assert due is not None and due.was_changed and due.since == AT + timedelta(minutes=70)


def test_what_builds_up_in_a_full_tank() -> None:
    """12 lb of 300 g white crappie in 20 gal at 24 °C bring 33 mg/L of carbon dioxide in 8 h at rest with the lid shut (the
    project's figure for the trade's case), so 20 mg/L, from 0.6 at first, in 4.7 h; the family's other curves are faster."""
    found = build_up(seen(temp="24 C", fish_lb="12", volume_gal="20", ph="7.6", total_ammonia="0.2"))
    assert found is not None and found.carbon_dioxide_at_rest is not None and found.ammonia_at_rest is not None
    soonest, latest = found.carbon_dioxide_at_rest
    assert 1.5 < soonest < 3.0 and 4.4 < latest < 5.0
    assert found.carbon_dioxide_caught == pytest.approx((soonest / 3, latest / 3))
    assert found.ammonia_at_rest[0] < found.ammonia_at_rest[1]
    for missing in ({"fish_lb": "0", "volume_gal": "20", "temp": "24 C"}, {"fish_lb": "9", "temp": "24 C"}, {"temp": "38 C", "fish_lb": "9", "volume_gal": "20"}):  # fmt: skip
        assert build_up(seen(**missing)) is None
    over = build_up(seen(temp="24 C", fish_lb="12", volume_gal="20", ph="8", total_ammonia="2"))
    assert over is not None and over.ammonia_at_rest == (0.0, 0.0)


def test_a_tanks_volume_may_stand_in_another_of_its_readings() -> None:
    found: Any = measured(reading(fish_lb="50"), care_context(), volume_gal="100")
    assert found.filled == pytest.approx(0.5) and found.volume == 100 and Decimal(found.load) == 50
