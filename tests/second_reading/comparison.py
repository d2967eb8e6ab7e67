"""Differences between the second reading and the product's JSON, each with its path."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import isclose
from typing import Any


def differences(ours: Any, theirs: Any, path: str = "") -> list[str]:
    """Exact for Fractions (weights, money, points), 1e-9 for floats; keys that only the product has are left
    alone."""
    if isinstance(ours, Mapping):
        if not isinstance(theirs, Mapping):
            return [f"{path}: {ours!r} against {theirs!r}"]
        missing = [f"{path}.{key}: missing" for key in ours if key not in theirs]
        same = [key for key in ours if key in theirs]
        return missing + [line for key in same for line in differences(ours[key], theirs[key], f"{path}.{key}")]
    if isinstance(ours, list):
        if not isinstance(theirs, list) or len(ours) != len(theirs):
            return [f"{path}: {ours!r} against {theirs!r}"]
        if path.endswith((".checks_passed", ".checks_failed")):  # names in no stated order
            ours, theirs = sorted(ours), sorted(theirs)
        pairs = zip(ours, theirs, strict=True)
        return [line for i, (a, b) in enumerate(pairs) for line in differences(a, b, f"{path}[{_label(a, i)}]")]
    return [] if _equal(ours, theirs) else [f"{path}: {_shown(ours)} against {theirs!r}"]


def _label(item: Any, index: int) -> str:
    """A standing or a care row is known by its boat."""
    if isinstance(item, Mapping) and "boat" in item:
        return f"{index} boat {item['boat']}"
    return str(index)


def _equal(ours: Any, theirs: Any) -> bool:
    if ours is None or theirs is None or isinstance(ours, bool) or isinstance(theirs, bool):
        return ours is theirs
    if isinstance(ours, str):
        return bool(ours == theirs)
    try:
        if isinstance(ours, float):
            return isclose(ours, float(theirs), rel_tol=0, abs_tol=1e-9)
        return Fraction(ours) == Fraction(str(theirs))
    except ValueError:
        return False


def _shown(value: Any) -> str:
    return f"{float(value):.10g}" if isinstance(value, Fraction) else repr(value)
