"""Random care notes, tank readings and holding studies, valid and with values at the limits of the checks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import timedelta

from ..clock import Day
from .chance import Chance
from .random_slips import SlipMaker
from .spelling import moment_text, yes_text

Rows = list[dict[str, str]]
# 75 F under a lake of 82 F is exactly 7 F of cooling; 23 C under 27 C is 7.2 F, 26.1 C under 30 C 7.02 F
LIVEWELLS = ["75 F", "70 F", "68 F", "79 F", "23 C", "26.1 C", "22.5 C", "73.9 F", "25.5 C"]


def care_notes(rng: Chance, teams: Sequence[Mapping[str, str]], days: Mapping[int, Day], maker: SlipMaker) -> Rows:
    """Notes of some boats on days that were not cancelled, with or without a slip."""
    rows: Rows = []
    for day in days.values():
        for team in teams:
            own = rng.of(day.number, team["boat"])
            if not day.cancelled and own.happens("note", 0.6):
                rows.append(_note(own, day, team["boat"], maker))
    rng.of("order").shuffle(rows)
    return rows


def _note(rng: Chance, day: Day, boat: str, maker: SlipMaker) -> dict[str, str]:
    row = {
        "pump_ok": yes_text(rng.of("pump_ok", "spelt"), rng.happens("pump_ok", 0.9)),
        "aeration": rng.pick("aeration", ["recirculated", "pumped", "oxygen", "none"]),
        "livewell_gal": "24",
        "ice_lb": rng.pick("ice_lb", ["0", "8", "4.5"]),
        "thermometer_ok": yes_text(rng.of("thermometer_ok", "spelt"), rng.happens("thermometer_ok", 0.8)),
        "livewell_temp": rng.pick("livewell_temp", LIVEWELLS),
        "livewell_do": rng.pick("livewell_do", ["5", "5.0", "4.9", "5.5", "7.2", "5.49"]),
        "most_on_board": rng.pick("most_on_board", ["7", "8", "30", "31"]),
        "culled": "3",
        "catch_depth_ft": "27.5",
        "deep_hooked": rng.pick("deep_hooked", ["0", "2"]),
        "barotrauma": rng.pick("barotrauma", ["0", "1"]),
        "reflexes_absent": "1",
        "reflexes_checked": rng.pick("reflexes_checked", ["1", "5"]),
        "note": "quiet fish",
    }
    trip = maker.trips.get((day.number, boat))
    launched = trip.launched if trip else day.starts
    first_fish = trip.first_fish if trip else day.starts + timedelta(minutes=45)
    row["launched"] = moment_text(rng.of("launched"), launched, day)
    row["first_fish"] = moment_text(rng.of("first_fish"), first_fish, day)
    kept = rng.pick("kept", [0.4, 0.8])
    row = {name: text for name, text in row.items() if rng.of(name).happens("kept", kept)}
    if "reflexes_absent" in row:
        row["reflexes_checked"] = row.get("reflexes_checked", "4")
    return {"day": str(day.number), "boat": boat} | row


def tank_readings(rng: Chance, days: Mapping[int, Day]) -> Rows:
    """A few readings on days that were not cancelled."""
    rows: Rows = []
    for day in days.values():
        for minutes in (0, 15, 30):
            own = rng.of(day.number, minutes)
            if not day.cancelled:
                row = {
                    "tank": own.pick("tank", ["1", "Recovery"]),
                    "volume_gal": "100",
                    "temp": own.pick("temp", ["74 F", "23.5 C"]),
                    "do": "7.1",
                    "ph": "7.9",
                    "total_ammonia": "0.4",
                    "salt_percent": "0.5",
                    "fish_lb": "31.5",
                    "note": "lid vented",
                }
                row = {name: text for name, text in row.items() if name == "tank" or own.of(name).happens("kept", 0.7)}
                time = moment_text(own.of("time"), day.ends + timedelta(minutes=minutes), day)
                rows.append({"day": str(day.number), "time": time} | row)
    return rows


def holding_pens(rng: Chance) -> Rows:
    """Tournament pens with or without reference pens, whose fish may all have died."""
    kinds = ["tournament", *(["reference"] if rng.happens("reference", 0.7) else [])]
    all_dead = rng.happens("all dead", 0.15)
    rows: Rows = []
    for kind in kinds:
        for pen in range(1, rng.of(kind).randint(1, 3) + 1):
            own = rng.of(kind, pen)
            held, missing = own.of("held").randint(5, 20), own.pick("missing", [0, 0, 1, 2])
            dead = own.of("dead").randint(0, 5 if kind == "tournament" else 2)
            if all_dead and kind == "reference":
                dead = held - missing
            row = {
                "group": f"{kind} fish",
                "kind": kind,
                "hours": own.pick("hours", ["72", "120"]),
                "held": str(held),
            }
            row |= {"dead": str(min(dead, held - missing)), "pen": str(pen), "species": "white crappie"}
            if missing or own.happens("missing said", 0.5):
                row["missing"] = str(missing)
            if own.happens("more", 0.5):
                row |= {"source": "seined", "water_temp": "76 F", "note": "shaded pens"}
            rows.append(row)
    return rows
