"""Figures of releases in words, as the tables show them."""

from collections.abc import Sequence

from django.utils.translation import gettext

from weighin.events.domain import temperatures
from weighin.events.domain.care_context import CareContext
from weighin.tanks.models import Release
from weighin.ui.figures import SPACE


def too_far_apart(release: Release, care_context: CareContext) -> str:
    """How far the fish's water was from the lake's, when that is more than the rule sheet allows; else empty."""
    if not release.water_temp or not release.tank_temp:
        return ""
    lake, tank = temperatures.water(release.water_temp), temperatures.water(release.tank_temp)
    off = lake.fahrenheit - tank.fahrenheit
    if abs(off) <= care_context.rules.care_max_cooling_f:
        return ""
    size = abs(off) if lake.unit == "F" else abs(off) * 5 / 9
    return (
        gettext("%(float)s °%(unit)s colder than the lake")
        if off > 0
        else gettext("%(float)s °%(unit)s warmer than the lake")
    ) % {"float": f"{round(float(size), 1):g}", "unit": lake.unit}


def span(figures: Sequence[float], unit: str) -> str:
    """The least and most of several figures: 4 ft, 4 to 12 ft; empty without any."""
    if not figures:
        return ""
    least, most = min(figures), max(figures)
    ends = (
        f"{least:g}"
        if least == most
        else gettext("%(least)s to %(most)s") % {"least": f"{least:g}", "most": f"{most:g}"}
    )
    return f"{ends}{SPACE}{unit}"
