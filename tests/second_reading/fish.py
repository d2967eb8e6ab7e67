"""Fish care and mortality: the rows of the care report, its checks, and the rates with their interval."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from math import sqrt
from typing import Any

from scipy import stats

from .amounts import fahrenheit, given, number, whole, yes
from .clock import Day, minutes, one_decimal
from .one_slip import Row

Z = 1.959963984540054


def care_row(day: Day, boat: int, slip: Row | None, note: Row | None, rules: Mapping[str, Any]) -> dict[str, Any]:
    """One row of fish_care, for "every day and boat with a current slip or a care note"."""
    slip = slip or {}
    note = note or {}

    def moment(row: Row, *names: str) -> Any:
        """The first of these times that is recorded."""
        return next((day.moment(row[name]) for name in names if given(row.get(name))), None)

    # "end = released, else weighed; start = first_fish, else launched, else the day's start_time"
    end = moment(slip, "released", "weighed")
    start = moment(note, "first_fish", "launched") or day.starts
    held = one_decimal(minutes(end, start)) if end else None
    # "without first_fish it is an upper bound (held_is_upper_bound; null when minutes_held is null)"
    upper = None if held is None else not given(note.get("first_fish"))
    # "minutes_in_bag = bag_emptied (else weighed) - bag_issued"
    issued, emptied = moment(slip, "bag_issued"), moment(slip, "bag_emptied", "weighed")
    in_bag = one_decimal(minutes(emptied, issued)) if issued and emptied else None
    results = _checks(day, note, held, in_bag, rules)
    return {
        "day": day.number,
        "boat": boat,
        "live_count": whole(slip["alive"]) if slip else None,
        "dead_count": whole(slip["dead"]) if slip else None,
        "minutes_held": held,
        "held_is_upper_bound": upper,
        "minutes_in_bag": in_bag,
        "checks_passed": [name for name, passed in results.items() if passed is True],
        "checks_failed": [name for name, passed in results.items() if passed is False],
    }


def _checks(
    day: Day, note: Row, held: Fraction | None, in_bag: Fraction | None, rules: Mapping[str, Any]
) -> dict[str, bool | None]:
    """As written: "each passed, failed or not recorded": True, False, None. "the checks compare these rounded
    figures"."""

    def recorded(name: str, read: Any) -> Any:
        return read(note[name]) if given(note.get(name)) else None

    def at_most(value: Any, limit: Any) -> bool | None:
        return None if value is None or limit is None else value <= limit

    ice = recorded("ice_lb", number)
    warm = day.lake is not None and day.lake >= rules["care_warm_f"]
    livewell = recorded("livewell_temp", fahrenheit)
    cooling = None if day.lake is None or livewell is None else day.lake - livewell
    oxygen = recorded("livewell_do", number)
    return {
        "pump": recorded("pump_ok", yes),
        "thermometer": recorded("thermometer_ok", yes),
        # "ice (ice_lb > 0; only when the lake is at or above care_warm_f)"
        "ice": None if ice is None or not warm else ice > 0,
        "on_board": at_most(recorded("most_on_board", whole), rules["boat_limit"]),
        "held": at_most(held, rules["care_max_held_minutes"]),
        "bag": at_most(in_bag, rules["care_max_bag_minutes"]),
        "cooling": at_most(cooling, rules["care_max_cooling_f"]),
        "oxygen": None if oxygen is None else oxygen >= rules["care_min_do"],
    }


def clustered(dead: Sequence[int], fish: Sequence[int]) -> tuple[float, float, float]:
    """(design effect, low, high) of the clusters with fish: "p = sum d / sum n over the m clusters with fish;
    v = m/(m-1) x sum (d_i - p n_i)^2 / (sum n)^2; design_effect_seen = max(1, v / (p(1-p)/sum n)), 1 when p is 0 or
    1 or m < 2"; "design_effect = (x design_effect_seen + 3 d0) / (x + 3), x = min(dead, presented - dead), d0 =
    1 + 0.2 (sum n^2 / sum n - 1). low, high = Wilson's interval on p and n/design_effect with Student's t (0.975,
    m-1) in place of z"; "with m < 2 z = 1.959963984540054"."""
    m, n = len(fish), sum(fish)
    p = Fraction(sum(dead), n)
    seen = scatter_seen(dead, fish)
    told = min(sum(dead), n - sum(dead))
    assumed = 1 + Fraction(1, 5) * (Fraction(sum(k * k for k in fish), n) - 1)
    effect = (told * seen + 3 * assumed) / (told + 3)
    z = Z if m < 2 else float(stats.t.ppf(0.975, m - 1))
    low, high = wilson(float(p), float(n / effect), z)
    return float(effect), low, high


def scatter_seen(dead: Sequence[int], fish: Sequence[int]) -> Fraction:
    """The design effect that the clusters show by themselves."""
    m, n = len(fish), sum(fish)
    p = Fraction(sum(dead), n)
    if m < 2 or p in (0, 1):
        return Fraction(1)
    v = Fraction(m, m - 1) * sum((d - p * k) ** 2 for d, k in zip(dead, fish, strict=True)) / n**2
    return max(Fraction(1), v / (p * (1 - p) / n))


def wilson(p: float, n: float, z: float) -> tuple[float, float]:
    """Wilson 1927."""
    centre = (p + z * z / (2 * n)) / (1 + z * z / n)
    half = z / (1 + z * z / n) * sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    return centre - half, centre + half


def mortality(slips: Iterable[Row], pens: Sequence[Row]) -> dict[str, Any]:
    """The mortality of the event from its current slips and the pens of its holding study."""
    wells: dict[int, list[int]] = {}
    presented = dead = kept = 0
    for slip in slips:
        fish = whole(slip["fish"])
        # "dead = dead + dead_at_release"
        died = whole(slip["dead"]) + _or_zero(slip, "dead_at_release")
        presented, dead, kept = presented + fish, dead + died, kept + _or_zero(slip, "kept")
        # "clusters (a team's fish over all days; well_boat says when another boat's well held them)"
        well = whole(slip["well_boat"]) if given(slip.get("well_boat")) else whole(slip["boat"])
        sums = wells.setdefault(well, [0, 0])
        sums[0] += died
        sums[1] += fish
    clusters = [(d, n) for d, n in wells.values() if n > 0]
    initial = Fraction(dead, presented) if presented else None
    effect, low, high = clustered(*zip(*clusters, strict=True)) if clusters else (None, None, None)
    delayed, basis = _delayed(pens)
    total = None if initial is None or delayed is None else 1 - (1 - initial) * (1 - max(Fraction(0), delayed))
    return {
        "presented": presented,
        "dead": dead,
        "kept": kept,
        "initial": _float(initial),
        "low": low,
        "high": high,
        "design_effect": effect,
        "clusters": len(clusters),
        # "of_release = dead / (presented - kept)"; "removed = (dead + kept) / presented"
        "of_release": dead / (presented - kept) if presented - kept else None,
        "removed": (dead + kept) / presented if presented else None,
        "delayed": _float(delayed),
        "delayed_basis": basis,
        "total": _float(total),
    }


def _delayed(pens: Sequence[Row]) -> tuple[Fraction | None, str | None]:
    """As written: "delayed = Abbott((tournament dead/held), (reference dead/held))"; "without a reference
    group it is the tournament rate and says so"; "No holding study, or more than 20 % of the reference fish dead: ...
    null"."""
    rates: dict[str, Fraction] = {}
    for kind in ("tournament", "reference"):
        of_kind = [pen for pen in pens if pen["kind"].strip() == kind]
        # "held = held - missing"
        held = sum(whole(pen["held"]) - _or_zero(pen, "missing") for pen in of_kind)
        if held:
            rates[kind] = Fraction(sum(whole(pen["dead"]) for pen in of_kind), held)
    treated, control = rates.get("tournament"), rates.get("reference")
    if treated is None or (control is not None and control > Fraction(1, 5)):
        return None, None
    if control is None:
        return treated, "no_reference"
    return (treated - control) / (1 - control), "reference"


def _or_zero(row: Row, name: str) -> int:
    return whole(row[name]) if given(row.get(name)) else 0


def _float(value: Fraction | None) -> float | None:
    return None if value is None else float(value)
