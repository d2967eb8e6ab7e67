"""Read tank readings and treatments as a person writes them at the tank."""

from collections.abc import Mapping
from functools import partial
from typing import Any

from weighin.events import temperatures
from weighin.fishcare.models import Treatment
from weighin.fishcare.reading import Reader, read_tank
from weighin.fishcare.scene import Scene
from weighin.livewell import ammonia, loading, oxygen
from weighin.livewell.ranges import OutOfRange
from weighin.livewell.salt import kg_for_percent
from weighin.livewell.units import kilograms, litres
from weighin.rules import values
from weighin.rules.faults import Fault, Faults

TREATMENT_FIELDS = ("day", "tank", "what", "product", "dose", "started", "ended", "label_seen", "note")
FIELD_OF = {
    "oxygen_mg_l": "do",
    "temperature_c": "temp",
    "salinity": "salt_percent",
    "percent": "salt_percent",
    "ph": "ph",
    "total_n_mg_l": "total_ammonia",
    "volume_l": "volume_gal",
    "fish_kg": "fish_lb",
}
NOTHING_READ = "nothing is read yet: write at least the temperature or the oxygen"
MEASURED = ("temp", "do", "ph", "total_ammonia", "salt_percent", "fish_lb")


def read_reading(written: Mapping[str, str], scene: Scene) -> dict[str, Any]:
    """A tank reading as ``read_tank`` reads it, with figures that no tank can show refused at their field.

    Refused are oxygen above 200 % of saturation, pH outside 4 to 11, salt above 5 %, a tank without volume and a
    reading without any figure. Raises Faults with field names.
    """
    faults: list[Fault] = []
    try:
        tank = read_tank(written, scene.calendar)
    except Faults as found:
        faults += found.faults
        tank = {}
    texts = {name: (text or "").strip() for name, text in written.items()}
    wrong = {fault.field for fault in faults}
    if not any(texts.get(name) for name in MEASURED):
        faults.append(Fault("temp", NOTHING_READ))
    faults += [fault for fault in _impossible(texts, scene) if fault.field not in wrong]
    if faults:
        raise Faults(faults)
    return tank


def read_treatment(written: Mapping[str, str], scene: Scene) -> dict[str, Any]:
    """A treatment's values, the fields of ``Treatment``. Raises Faults with field names."""
    reader, calendar = Reader(written), scene.calendar
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
        reader.fault("ended", "it ends before it starts: correct one of the two times", "started")
    if found["what"] in (Treatment.What.OTHER, Treatment.What.CONDITIONER) and not found["product"]:
        reader.fault("product", "write the name that stands on the label")
    if found["what"] not in ("", Treatment.What.WATER, Treatment.What.ICE) and found["label_seen"] is None:
        reader.fault("label_seen", "say whether the label was seen: dose and use are as it says")
    reader.finish()
    return found


def _impossible(texts: Mapping[str, str], scene: Scene) -> list[Fault]:
    """Figures that cannot be: each alone, and oxygen against what the water can hold."""
    faults = []
    warmth = _celsius(texts.get("temp", ""))
    salt = _number(texts, "salt_percent")
    oxygen_read = _number(texts, "do")
    attempts: list[tuple[Any, ...]] = []
    if salt is not None:
        attempts.append((kg_for_percent, {"volume_l": 1.0, "percent": salt}))
    if (reading := _number(texts, "ph")) is not None:
        attempts.append((ammonia.unionised_fraction, {"temperature_c": 20.0, "ph": reading}))
    if (total := _number(texts, "total_ammonia")) is not None:
        attempts.append((ammonia.unionised_mg_l, {"total_n_mg_l": total, "temperature_c": 20.0, "ph": 7.0}))
    if (gallons := _number(texts, "volume_gal")) is not None:
        load = _number(texts, "fish_lb") or 0.0
        tank = {"volume_l": litres(gallons), "fish_kg": kilograms(load)}
        attempts.append((loading.share_of_capacity, tank))
    if oxygen_read is not None and warmth is not None and warmth <= 40:
        salinity = min(10 * (salt or 0.0), 40.0)
        water = {"temperature_c": warmth, "pressure_mmhg": scene.pressure_mmhg, "salinity": salinity}
        attempts.append((oxygen.percent_saturation, {"oxygen_mg_l": oxygen_read, **water}))
    for work_out, given in attempts:
        try:
            work_out(**given)
        except OutOfRange as error:
            faults.append(Fault(FIELD_OF[error.name], str(error)))
    return faults


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
