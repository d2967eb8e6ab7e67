"""The sheets of an event workbook and their columns, in order, with how each is read."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Column:
    """A column: its name, how its cells become text (``plain``, ``time``, ``date``, ``words``), whether it must be filled."""

    name: str
    kind: str = "plain"
    required: bool = False


@dataclass(frozen=True)
class SheetSpec:
    """A sheet's title and its columns."""

    title: str
    columns: tuple[Column, ...]


def _columns(written: str) -> tuple[Column, ...]:
    """``name``, ``name:kind``, with a star where the column must be filled."""
    columns = []
    for word in written.split():
        name, _, kind = word.removesuffix("*").partition(":")
        columns.append(Column(name, kind or "plain", word.endswith("*")))
    return tuple(columns)


EVENT = SheetSpec(
    "Event",
    _columns(
        "club:words* season* event:words* water:words* date:date* days weight_unit* start_time:time due_time:time time_zone "
        "handling elevation_ft lake_temp entry_fee added_money permit:words note:words"
    ),
)
DAYS = SheetSpec(
    "Days",
    _columns("day* date:date start_time:time due_time:time lake_temp air_temp weather:words status note:words"),
)
FLIGHTS = SheetSpec("Flights", _columns("flight* day launch:time due_time:time*"))
RULES = "Rules"
TEAMS = SheetSpec(
    "Teams",
    _columns(
        "boat* team:words* angler_1:words* angler_2:words angler_3:words youth flight paid big_fish_pot status lot note:words"
    ),
)
SLIPS = SheetSpec(
    "Slips",
    _columns(
        "slip day* boat* fish alive dead short gross tare big_fish big_fish_alive largest_weights black_crappie white_crappie "
        "other_species well_boat checked_in:time minutes_late excused_minutes bag_issued:time weighed:time bag_emptied:time "
        "released:time dead_at_release kept official:words extra_penalty extra_penalty_reason:words "
        "disqualified_reason:words note:words replaces reason:words void"
    ),
)
CHECK_INS = SheetSpec(
    "Check-ins",
    _columns(
        "day* boat* checked_in:time minutes_late excused_minutes whereabouts word:words told_at:time official:words note:words"
    ),
)
FISH_CARE = SheetSpec(
    "Fish care",
    _columns(
        "day* boat* pump_ok aeration livewell_gal ice_lb thermometer_ok launched:time first_fish:time livewell_temp livewell_do "
        "most_on_board culled catch_depth_ft deep_hooked barotrauma reflexes_absent reflexes_checked note:words"
    ),
)
TANKS = SheetSpec(
    "Tanks",
    _columns("day* tank:words* volume_gal time:time* temp do ph total_ammonia salt_percent fish_lb note:words"),
)
HOLDING = SheetSpec(
    "Holding",
    _columns(
        "group:words* kind* pen:words source:words species:words started:words hours* held* dead* missing water_temp note:words"
    ),
)
TABLES = (DAYS, FLIGHTS, TEAMS, SLIPS, CHECK_INS, FISH_CARE, TANKS, HOLDING)
