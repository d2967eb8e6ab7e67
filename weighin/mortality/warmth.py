"""The rate of dead fish against the lake's temperature: dots, and from eight events on a curve with its band."""

from collections.abc import Sequence
from dataclasses import dataclass

from weighin.mortality.lake import in_unit
from weighin.mortality.words import SPACE, counted, times, whole_percent
from weighin.survival.clusters import Clustered
from weighin.survival.logistic import FEWEST_GROUPS, LogisticFit, NoCurve, fit_logistic

STEPS = 48
FEWEST_DOTS = 3


@dataclass(frozen=True)
class CurvePoint:
    """The fitted rate at a temperature (°F) and its 95 % band, as shares."""

    fahrenheit: float
    share: float
    low: float
    high: float


@dataclass(frozen=True)
class Warmth:
    """Events as (lake temperature in °F, rate), coolest first, and the curve through them or why there is none."""

    unit: str
    points: Sequence[tuple[float, Clustered]]
    fit: LogisticFit | None
    why_none: str

    @property
    def has_dots(self) -> bool:
        """Whether there are events enough to look at side by side."""
        return len(self.points) >= FEWEST_DOTS

    @property
    def curve(self) -> list[CurvePoint]:
        """The curve within the temperatures seen."""
        if self.fit is None:
            return []
        seen = self.fit.seen[0]
        places = [seen.low + (seen.high - seen.low) * step / STEPS for step in range(STEPS + 1)]
        rates = zip(places, self.fit.predict(places), self.fit.band(places), strict=True)
        return [CurvePoint(place, share, band.low, band.high) for place, share, band in rates]

    @property
    def step(self) -> int:
        """Degrees of the page's unit that the odds are given for."""
        return 5 if self.unit == "F" else 3

    @property
    def odds(self) -> tuple[float, float, float] | None:
        """The factor on the odds of a fish being dead for ``step`` degrees more, with its limits; None without a fit."""
        if self.fit is None:
            return None
        value, limits = self.fit.odds_ratio()
        power = self.step * (1.0 if self.unit == "F" else 9 / 5)
        return value**power, limits.low**power, limits.high**power

    @property
    def title(self) -> str:
        """What can be said of temperature and dead fish, and no more."""
        if self.odds is None:
            return "Rates by lake temperature"
        _, low, high = self.odds
        if low > 1.0:
            return "Warmer lakes went together with more dead fish."
        if high < 1.0:
            return "Warmer lakes went together with fewer dead fish."
        return "No clear link with the lake’s temperature shows."

    @property
    def said(self) -> str:
        """The link in figures with its range, or why no curve is drawn."""
        if self.odds is None:
            return self.why_none
        value, low, high = self.odds
        return (
            f"For every {self.step}{SPACE}°{self.unit} warmer the odds of a fish being dead were {times(value)} as high "
            f"(95{SPACE}% range {times(low)} to {times(high)}), over {counted(len(self.points), 'event')}. "
            "That is an association: other things change with the season too."
        )

    def at_stop(self, stop: float) -> str:
        """Where the curve meets our stop level, with the temperatures that its band allows."""
        if self.fit is None or self.odds is None or self.odds[1] <= 1.0:
            return ""
        try:
            meets = self.fit.x_at(stop)
        except NoCurve:
            return f"Within the temperatures seen the curve does not reach our stop level of {whole_percent(stop)}."
        curve = self.curve
        earliest = next((p.fahrenheit for p in curve if p.high >= stop), curve[-1].fahrenheit)
        latest = next((p.fahrenheit for p in curve if p.low >= stop), None)
        ends = f"{self._degrees(latest)}" if latest is not None else "beyond the warmest event"
        return (
            f"The curve meets our stop level of {whole_percent(stop)} at about {self._degrees(meets)}; "
            f"its range allows from {self._degrees(earliest)} to {ends}."
        )

    def _degrees(self, fahrenheit: float) -> str:
        return f"{in_unit(fahrenheit, self.unit):.0f}{SPACE}°{self.unit}"


def warmth_of(events: Sequence[tuple[int, float, Clustered]], unit: str) -> Warmth:
    """From (event id, lake temperature in °F, rate) of every event that has both."""
    ordered = sorted(events, key=lambda event: event[1])
    fit, why = None, ""
    if len(ordered) < FEWEST_GROUPS:
        why = (
            f"{counted(len(ordered), 'event')} with a temperature and fish {'is' if len(ordered) == 1 else 'are'} too few for "
            f"a curve: temperature is a fact of an event, so it takes {FEWEST_GROUPS} at least."
        )
    else:
        try:
            fit = fit_logistic(
                [temperature for _, temperature, _ in ordered],
                [rate.dead for _, _, rate in ordered],
                [rate.n for _, _, rate in ordered],
                groups=[event for event, _, _ in ordered],
            )
        except NoCurve as refused:
            why = f"No curve is drawn: {refused}."
    return Warmth(unit, [(temperature, rate) for _, temperature, rate in ordered], fit, why)
