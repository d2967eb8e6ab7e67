"""Read tank readings and treatments from written values, as a row or a form gives them."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.care_context import CareContext
from weighin.events.parsing.rows import Reader
from weighin.livewell import ammonia, oxygen
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.salt import kg_for_percent
from weighin.rules import values
from weighin.rules.faults import Fault, Faults
from weighin.tanks.domain.faults import (
    LABEL_NOT_SAID,
    NO_SUCH_FIGURE,
    NO_VOLUME,
    NOTHING_READ,
    OXYGEN_TOO_FULL,
    PRODUCT_WITHOUT_NAME,
    TREATMENT_ENDS_FIRST,
)
from weighin.tanks.models import Treatment

TANK_FIELDS = (
    "tank",
    "volume_gal",
    "time",
    "temp",
    "do",
    "ph",
    "total_ammonia",
    "salt_percent",
    "fish_lb",
    "note",
)


def read_tank(written: Mapping[str, str | None], calendar: Calendar) -> dict[str, Any]:
    """A tank reading's values: ``day`` and the fields of ``TankReading``. Raises Faults with field names."""
    reader = Reader(written)
    day = reader.day(calendar)
    tank: dict[str, Any] = {"day": day, "tank": reader.required("tank", lambda text: values.line(text, 80), "")}
    tank["time"] = (
        reader.required("time", lambda text: calendar.read(day, text), None) if day in calendar.days else None
    )
    tank["temp"] = reader.checked("temp", temperatures.water)
    tank["ph"] = reader.figure("ph", most=14)
    tank["do"] = reader.figure("do", most=60)
    tank["salt_percent"] = reader.figure("salt_percent", most=40)
    for name in ("volume_gal", "total_ammonia", "fish_lb"):
        tank[name] = reader.figure(name)
    tank["note"] = reader.value("note", values.lines, "")
    reader.finish()
    return tank


TREATMENT_FIELDS = ("day", "tank", "what", "product", "dose", "started", "ended", "label_seen", "note")
FIELD_OF = {"percent": "salt_percent", "ph": "ph", "total_n_mg_l": "total_ammonia"}

MEASURED = ("temp", "do", "ph", "total_ammonia", "salt_percent", "fish_lb")


def read_reading(written: Mapping[str, str], care_context: CareContext) -> dict[str, Any]:
    """A tank reading as ``read_tank`` reads it, with figures that no tank can show refused at their field.

    Refused are oxygen above 200 % of saturation, pH outside 4 to 11, salt above 5 %, a tank without volume and a
    reading without any figure. Raises Faults with field names.
    """
    faults: list[Fault] = []
    try:
        tank = read_tank(written, care_context.calendar)
    except Faults as found:
        faults += found.faults
        tank = {}
    texts = {name: (text or "").strip() for name, text in written.items()}
    wrong = {fault.field for fault in faults}
    if not any(texts.get(name) for name in MEASURED):
        faults.append(NOTHING_READ.at("temp"))
    faults += [fault for fault in _impossible(texts, care_context) if fault.field not in wrong]
    if faults:
        raise Faults(faults)
    return tank


def read_treatment(written: Mapping[str, str], care_context: CareContext) -> dict[str, Any]:
    """A treatment's values, the fields of ``Treatment``. Raises Faults with field names."""
    reader, calendar = Reader(written), care_context.calendar
    day = reader.day(calendar)
    found: dict[str, Any] = {
        "day": day,
        "tank": reader.required("tank", partial(values.line, most=80), ""),
        "what": reader.required("what", lambda text: values.choice(text, Treatment.What.values), ""),
        "product": reader.value("product", values.line, ""),
        "dose": reader.required("dose", partial(values.line, most=80), ""),
        "label_seen": reader.value("label_seen", values.yes_no),
        "note": reader.value("note", values.lines, ""),
    }
    known = day in calendar.days
    found["started"] = reader.required("started", lambda text: calendar.read(day, text), None) if known else None
    found["ended"] = reader.value("ended", lambda text: calendar.read(day, text)) if known else None
    if found["started"] and found["ended"] and found["ended"] < found["started"]:
        reader.faults.append(TREATMENT_ENDS_FIRST.at("ended", "started"))
    if found["what"] in (Treatment.What.OTHER, Treatment.What.CONDITIONER) and not found["product"]:
        reader.faults.append(PRODUCT_WITHOUT_NAME.at("product"))
    if found["what"] not in ("", Treatment.What.WATER, Treatment.What.ICE) and found["label_seen"] is None:
        reader.faults.append(LABEL_NOT_SAID.at("label_seen"))
    reader.finish()
    return found


def _impossible(texts: Mapping[str, str], care_context: CareContext) -> list[Fault]:
    """Figures that cannot be: each alone, and oxygen against what the water can hold."""
    faults = []
    salt, reading, total = (_number(texts, name) for name in ("salt_percent", "ph", "total_ammonia"))
    alone: list[tuple[Callable[..., float], dict[str, float]]] = []
    if salt is not None:
        alone.append((kg_for_percent, {"volume_l": 1.0, "percent": salt}))
    if reading is not None:
        alone.append((ammonia.unionised_fraction, {"temperature_c": 20.0, "ph": reading}))
    if total is not None:
        alone.append((ammonia.unionised_mg_l, {"total_n_mg_l": total, "temperature_c": 20.0, "ph": 7.0}))
    for work_out, given in alone:
        try:
            work_out(**given)
        except OutOfRange as error:
            faults.append(NO_SUCH_FIGURE.at(FIELD_OF[error.name], why=str(error)))
    if _number(texts, "volume_gal") == 0:
        faults.append(NO_VOLUME.at("volume_gal"))
    return [*faults, *_too_full(texts, care_context, salt or 0.0)]


def _too_full(texts: Mapping[str, str], care_context: CareContext, salt: float) -> list[Fault]:
    """Oxygen above what a livewell can show."""
    do, warmth = _number(texts, "do"), _celsius(texts.get("temp", ""))
    if do is None or warmth is None:
        return []
    try:
        full = oxygen.saturation_mg_l(warmth, care_context.pressure_mmhg, 10 * salt)
    except OutOfRange:
        return []
    share = 100 * do / full
    if share <= oxygen.MOST_PERCENT:
        return []
    return [OXYGEN_TOO_FULL.at("do", share=f"{share:.0f}", full=f"{full:.1f}")]


def _number(texts: Mapping[str, str], name: str) -> float | None:
    """A figure where it can be read; what cannot is somebody else's fault."""
    try:
        return float(values.decimal(texts[name], least=0)) if texts.get(name) else None
    except ValueError:
        return None


def _celsius(text: str) -> float | None:
    try:
        return float(temperatures.water(text).celsius) if text else None
    except ValueError:
        return None
