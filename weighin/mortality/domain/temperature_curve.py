"""The rate of dead fish against the lake's temperature: dots, and from eight events on a curve with its band."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext, ngettext

from weighin.mortality.domain.lake import in_unit
from weighin.mortality.domain.odds_words import odds_said
from weighin.mortality.domain.words import SPACE, counted, whole_percent
from weighin.survival.bend import Curve, fit_curve
from weighin.survival.clusters import Clustered
from weighin.survival.intervals import Interval
from weighin.survival.logistic import FEWEST_GROUPS, NoCurve

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
class TemperatureCurve:
    """Events as (lake temperature in °F, rate), coolest first, and the curve through them or why there is none.

    The curve may bend at ``bend_at`` (°F), where the rule sheet's care steps begin: a place named before the season.
    """

    unit: str
    points: Sequence[tuple[float, Clustered]]
    fit: Curve | None
    why_none: str
    bend_at: float

    @property
    def has_dots(self) -> bool:
        """Whether there are events enough to look at side by side."""
        return len(self.points) >= FEWEST_DOTS

    @property
    def curve(self) -> list[CurvePoint]:
        """The curve within the temperatures seen, the bend among its points."""
        if self.fit is None:
            return []
        seen = self.fit.seen
        places = {seen.low + (seen.high - seen.low) * step / STEPS for step in range(STEPS + 1)}
        if self.fit.bend_at is not None:
            places.add(self.fit.bend_at)
        rates = ((place, self.fit.predict(place), self.fit.band(place)) for place in sorted(places))
        return [CurvePoint(place, share, band.low, band.high) for place, share, band in rates]

    @property
    def step(self) -> int:
        """Degrees of the page's unit that the odds are given for."""
        return 5 if self.unit == "F" else 3

    @property
    def odds(self) -> tuple[float, float, float] | None:
        """The factor on the odds of a fish being dead for ``step`` degrees more, with its limits; None without a fit.

        Of a bent curve that beyond the bend.
        """
        return None if self.fit is None else self._for_step(*self.fit.odds_ratio())

    @property
    def title(self) -> str:
        """What can be said of temperature and dead fish, and no more."""
        if self.odds is None or self.fit is None:
            return gettext("Rates by lake temperature")
        _, low, high = self.odds
        if low <= 1.0 <= high:
            return gettext("No clear link with the lake’s temperature.")
        if self.fit.bend_at is None:
            if low > 1.0:
                return gettext("Warmer lakes went together with more dead fish.")
            return gettext("Warmer lakes went together with fewer dead fish.")
        above = (
            gettext("Above %(degrees)s warmer lakes went together with more dead fish.")
            if low > 1.0
            else gettext("Above %(degrees)s warmer lakes went together with fewer dead fish.")
        )
        return above % {"degrees": self._degrees(self.fit.bend_at)}

    @property
    def said(self) -> str:
        """The link in figures with its range, or why no curve is drawn."""
        if self.odds is None or self.fit is None:
            return self.why_none
        over = counted(len(self.points), "event")
        every = gettext("every %(step)s °%(unit)s warmer") % {"step": self.step, "unit": self.unit}
        before = self.fit.odds_ratio_before()
        if before is None or self.fit.bend_at is None:
            return gettext(
                "For %(every)s a fish had %(odds_said)s of being dead, over %(over)s. Other things change too."
            ) % {"every": every, "odds_said": odds_said(*self.odds), "over": over}
        at = self._degrees(self.fit.bend_at)
        return gettext(
            "Above %(at)s, for %(every)s a fish had %(odds_said)s of being dead; below it %(odds_below)s. Over %(over)s; other things change too."
        ) % {
            "at": at,
            "every": every,
            "odds_said": odds_said(*self.odds),
            "odds_below": odds_said(*self._for_step(*before)),
            "over": over,
        }

    @property
    def test_said(self) -> str:
        """Why the curve is straight or bent, with the test, and how near it comes to the warmest event."""
        if self.fit is None:
            return ""
        at, test = self._degrees(self.bend_at), self.fit.test
        if test is None:
            said = gettext("The curve is straight in the odds; a bend at %(at)s was not tried, since %(replace)s.") % {
                "at": at,
                "replace": self.fit.why_untried.replace("groups", "events"),
            }
        else:
            figures = gettext("F %(f)s on 1 and %(df)s df, p %(p)s") % {
                "f": f"{test.f:.1f}",
                "df": test.df,
                "p": f"{test.p:.2g}",
            }
            said = (
                gettext(
                    "A curve with a bend at %(at)s, where care steps begin, fits better than a straight one (%(figures)s)."
                )
                % {"at": at, "figures": figures}
                if test.is_clear
                else gettext(
                    "A bend at %(at)s, where care steps begin, does not clearly fit better than a straight curve (%(figures)s)."
                )
                % {"at": at, "figures": figures}
            )
        return f"{said} {self._warmest_said()}"

    def _warmest_said(self) -> str:
        """What the curve gives for the warmest event, beside what was seen: a misfit at the hot end is said here."""
        fahrenheit, rate = self.points[-1]
        given = self.expected(fahrenheit, rate.n)
        if given is None:
            return ""
        said = gettext("For the warmest event the curve gives about %(given)s dead of %(n)s; %(dead)s were.") % {
            "given": f"{given[0]:,.0f}",
            "n": f"{rate.n:,.0f}",
            "dead": f"{rate.dead:,.0f}",
        }
        return (
            said
            if given[1] <= rate.dead <= given[2]
            else f"{said} " + gettext("It misses the hot end by more than its own range.")
        )

    def expected(self, fahrenheit: float, fish: float) -> tuple[float, float, float] | None:
        """Dead of so many fish by the curve, with its range; None outside it."""
        try:
            if self.fit is None:
                return None
            share, band = self.fit.predict(fahrenheit), self.fit.band(fahrenheit)
        except NoCurve:
            return None
        return fish * share, fish * band.low, fish * band.high

    def at_stop(self, stop: float) -> str:
        """Where the curve meets our stop level, with the temperatures that its band allows."""
        if self.fit is None or self.odds is None or self.odds[1] <= 1.0:
            return ""
        try:
            meets = self.fit.x_at(stop)
        except NoCurve:
            return gettext("Within the temperatures seen the curve does not reach our stop level of %(stop)s.") % {
                "stop": whole_percent(stop)
            }
        latest = next((p.fahrenheit for p in self.curve if p.low >= stop), None)
        ends = f"{self._degrees(latest)}" if latest is not None else gettext("beyond the warmest event")
        earliest = self.reaches_from(stop) or meets
        return gettext(
            "The curve meets our stop level of %(stop)s at about %(meets)s; its range allows from %(earliest)s to %(ends)s."
        ) % {
            "stop": whole_percent(stop),
            "meets": self._degrees(meets),
            "earliest": self._degrees(earliest),
            "ends": ends,
        }

    def reaches_from(self, stop: float) -> float | None:
        """The coolest lake (°F) at which the curve's range reaches our stop level; None where it does not, or falls."""
        if self.odds is None or self.odds[1] <= 1.0:
            return None
        return next((p.fahrenheit for p in self.curve if p.high >= stop), None)

    def _degrees(self, fahrenheit: float) -> str:
        return f"{in_unit(fahrenheit, self.unit):.0f}{SPACE}°{self.unit}"

    def _for_step(self, value: float, limits: Interval) -> tuple[float, float, float]:
        power = self.step * (1.0 if self.unit == "F" else 9 / 5)
        return value**power, limits.low**power, limits.high**power


def temperature_curve_of(events: Sequence[tuple[int, float, Clustered]], unit: str, bend_at: float) -> TemperatureCurve:
    """From (event id, lake temperature in °F, rate) of every event that has both."""
    ordered = sorted(events, key=lambda event: event[1])
    fit, why = None, ""
    if len(ordered) < FEWEST_GROUPS:
        why = ngettext(
            "%(events)s with a temperature and fish is too few for a curve: temperature is a fact of an event, so it takes %(fewest_groups)s at least.",
            "%(events)s with a temperature and fish are too few for a curve: temperature is a fact of an event, so it takes %(fewest_groups)s at least.",
            len(ordered),
        ) % {"events": counted(len(ordered), "event"), "fewest_groups": FEWEST_GROUPS}
    else:
        try:
            fit = fit_curve(
                [temperature for _, temperature, _ in ordered],
                [rate.dead for _, _, rate in ordered],
                [rate.n for _, _, rate in ordered],
                groups=[event for event, _, _ in ordered],
                bend_at=bend_at,
            )
        except NoCurve as refused:
            why = gettext("No curve is drawn: %(refused)s.") % {"refused": refused}
    return TemperatureCurve(unit, [(temperature, rate) for _, temperature, rate in ordered], fit, why, bend_at)
