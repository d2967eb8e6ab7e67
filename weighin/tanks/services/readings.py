"""Readings of tanks and what was put into them, through the door: from a page, from a workbook."""

from collections.abc import Callable

from django.utils.translation import gettext_lazy

from weighin.events.domain import temperatures
from weighin.events.queries.care_context import elevation_of
from weighin.livewell import ammonia, oxygen
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.figures.units import metres
from weighin.livewell.pressure import at_elevation_mmhg
from weighin.livewell.salt import kg_for_percent
from weighin.records.parsing.reader import Reader
from weighin.roster.services.event_rows import EventRow
from weighin.tanks.domain import faults, fields
from weighin.tanks.models import TankReading, Treatment

MEASURED = ("temp", "do", "ph", "total_ammonia", "salt_percent", "fish_lb")
FIELD_OF = {"percent": "salt_percent", "ph": "ph", "total_n_mg_l": "total_ammonia"}


class ReadingRecord(EventRow[TankReading]):
    """A reading of a tank.

    Of a person who can be asked, figures that no tank can show are refused: oxygen above 200 % of saturation, pH outside
    4 to 11, salt above 5 %, a tank without volume, a reading without any figure. A workbook's are kept as they stand.
    """

    model = TankReading
    noun = gettext_lazy("tank reading")
    act = "tank"
    fields = fields.READING
    key = "sent_id"

    def check(self, reader: Reader, old: TankReading | None) -> None:
        if not reader.asked:
            return
        if not any(reader.texts.get(name) for name in MEASURED):
            reader.fault("temp", faults.NOTHING_READ)
        _check_alone(reader)
        _check_oxygen(reader)


class TreatmentRecord(EventRow[Treatment]):
    """Something put into a tank, or its water changed."""

    model = Treatment
    noun = gettext_lazy("treatment")
    act = "treatment"
    fields = fields.TREATMENT

    def check(self, reader: Reader, old: Treatment | None) -> None:
        what = reader["what"]
        if reader["started"] and reader["ended"] and reader["ended"] < reader["started"]:
            reader.fault("ended", faults.TREATMENT_ENDS_FIRST, "started")
        if what in (Treatment.What.OTHER, Treatment.What.CONDITIONER) and not reader["product"]:
            reader.fault("product", faults.PRODUCT_WITHOUT_NAME)
        if what not in ("", Treatment.What.WATER, Treatment.What.ICE) and reader["label_seen"] is None:
            reader.fault("label_seen", faults.LABEL_NOT_SAID)


TANK_READING = ReadingRecord()
TREATMENT = TreatmentRecord()


def _figure(reader: Reader, name: str) -> float | None:
    return float(reader[name]) if reader[name] else None


def _check_alone(reader: Reader) -> None:
    """Each figure by itself."""
    salt, ph, total = (_figure(reader, name) for name in ("salt_percent", "ph", "total_ammonia"))
    alone: list[tuple[Callable[..., float], dict[str, float]]] = []
    if salt is not None:
        alone.append((kg_for_percent, {"volume_l": 1.0, "percent": salt}))
    if ph is not None:
        alone.append((ammonia.unionised_fraction, {"temperature_c": 20.0, "ph": ph}))
    if total is not None:
        alone.append((ammonia.unionised_mg_l, {"total_n_mg_l": total, "temperature_c": 20.0, "ph": 7.0}))
    for work_out, given in alone:
        try:
            work_out(**given)
        except OutOfRange as error:
            reader.fault(FIELD_OF[error.name], faults.NO_SUCH_FIGURE, why=str(error))
    if _figure(reader, "volume_gal") == 0:
        reader.fault("volume_gal", faults.NO_VOLUME)


def _check_oxygen(reader: Reader) -> None:
    """Oxygen against what the water can hold."""
    do, salt = _figure(reader, "do"), _figure(reader, "salt_percent") or 0.0
    if do is None or not reader["temp"]:
        return
    pressure = at_elevation_mmhg(metres(elevation_of(reader.context.event) or 0.0))
    try:
        full = oxygen.saturation_mg_l(float(temperatures.water(reader["temp"]).celsius), pressure, 10 * salt)
    except OutOfRange:
        return
    share = 100 * do / full
    if share > oxygen.MOST_PERCENT:
        reader.fault("do", faults.OXYGEN_TOO_FULL, share=f"{share:.0f}", full=f"{full:.1f}")
