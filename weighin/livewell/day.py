"""A livewell over a day: its water, the fish that come aboard, the temperatures and the water changes."""

from collections.abc import Callable
from dataclasses import dataclass, field

from weighin.livewell.figures.course import Band, Course, steady
from weighin.livewell.figures.estimate import NOTHING, Estimate
from weighin.livewell.figures.mixed import Rates, follow
from weighin.livewell.figures.ranges import OutOfRange, above, gettext_noop, keep, temperature, within
from weighin.livewell.respiration import (
    HEAVIEST_G,
    LIGHTEST_G,
    SUNFISH,
    checked_species,
    checked_times_rest,
    estimate_mg_per_kg_h,
)
from weighin.livewell.water_change import Change, jumps


@dataclass(frozen=True)
class Boarding:
    """Fish put into the well.

    Parameters
    ----------
    hour : float
        When, hours from the start, 0 to 72.
    fish : int
        How many, 1 to 1000.
    mass_g : float
        Mass of one in g, 20 to 10000.
    until_hour : float, optional
        When they leave again (culled, weighed); later than `hour`. Left out, they stay.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> Boarding(hour=1.5, fish=7, mass_g=400).kg
    2.8
    """

    hour: float
    fish: int
    mass_g: float
    until_hour: float | None = None

    def __post_init__(self) -> None:
        keep(self, "hour", within("hour", self.hour, 0, 72, gettext_noop("The hour fish come aboard"), "h"))
        if self.fish != int(within("fish", self.fish, 1, 1000, gettext_noop("The number of fish"))):
            raise OutOfRange(
                "fish", gettext_noop("The number of fish must be a whole number, not %(fish)s."), fish=self.fish
            )
        keep(self, "fish", int(self.fish))
        keep(
            self,
            "mass_g",
            within("mass_g", self.mass_g, LIGHTEST_G, HEAVIEST_G, gettext_noop("The mass of a fish"), "g"),
        )
        if self.until_hour is not None:
            keep(
                self,
                "until_hour",
                within("until_hour", self.until_hour, 0, 72, gettext_noop("The hour fish leave"), "h"),
            )
            if self.until_hour <= self.hour:
                raise OutOfRange("until_hour", gettext_noop("Fish leave the livewell later than they come."))

    @property
    def kg(self) -> float:
        return self.fish * self.mass_g / 1000

    def aboard(self, hour: float) -> bool:
        return self.hour <= hour and (self.until_hour is None or hour < self.until_hour)


@dataclass(frozen=True)
class LivewellDay:
    """What `budget`, `carbon_dioxide` and `ammonia` need to know of a day.

    Parameters
    ----------
    volume_l : float
        Water in the well in L, more than 0, at most 100000 (a holding tank is a large livewell).
    hours : float
        Length of the day, more than 0, at most 72.
    boardings : tuple of Boarding
        Fish coming aboard; none is a well without fish.
    temperature_c : float or Course
        The well's water in °C over the day, 0 to 36 while fish are aboard, 0 to 40 without; `ice_plan` gives
        such a course.
    species : str
        A species of `respiration`, or 'sunfish' for the range over the family.
    times_rest : float
        Times the resting rate, 0.5 to 10; freshly caught fish use several times more.
    changes : tuple of Change
        Water changes. They are not taken into the temperature here: `ice_plan` does that.

    Raises
    ------
    OutOfRange
        Outside the ranges above, or when more kg of fish are aboard at once than there are L of water (a
        ValueError).

    Examples
    --------
    >>> fish = (Boarding(0, 4, 300), Boarding(2, 3, 300))
    >>> day = LivewellDay(volume_l=75, hours=8, boardings=fish, temperature_c=25.0)
    >>> day.kg_aboard(1), round(day.kg_aboard(3), 1), round(day.use_mg_per_h(3).low)
    (1.2, 2.1, 107)
    """

    volume_l: float
    hours: float
    boardings: tuple[Boarding, ...]
    temperature_c: float | Course
    species: str = SUNFISH
    times_rest: float = 1.0
    changes: tuple[Change, ...] = ()
    course_c: Course = field(init=False, repr=False, compare=False)
    _used: dict[float, Estimate] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        keep(
            self,
            "volume_l",
            above("volume_l", self.volume_l, 0, 100_000, gettext_noop("The water in the livewell"), "L"),
        )
        keep(self, "hours", above("hours", self.hours, 0, 72, gettext_noop("The day"), "h"))
        keep(self, "times_rest", checked_times_rest(self.times_rest))
        checked_species(self.species)
        given = self.temperature_c
        course = given if isinstance(given, Course) else steady(temperature("temperature_c", given))
        for value in course.values:
            temperature("temperature_c", value)
        keep(self, "course_c", course)
        for hour in {
            0.0,
            *(each.hour for each in self.boardings),
            *(h for h in course.hours if h <= self.hours),
        }:
            if self.kg_aboard(hour) > self.volume_l:
                raise OutOfRange(
                    "boardings",
                    gettext_noop("%(hour)s kg of fish need more water than %(volume_l)s L."),
                    hour=f"{self.kg_aboard(hour):.3g}",
                    volume_l=f"{self.volume_l:g}",
                )
            self.use_mg_per_h(hour)  # a temperature out of range is told now, not half way through a day

    def kg_aboard(self, hour: float) -> float:
        """Fish in the well in kg at an hour."""
        return sum(each.kg for each in self.boardings if each.aboard(hour))

    def use_mg_per_h(self, hour: float) -> Estimate:
        """Oxygen the fish aboard use at an hour, mg/h: over the family's range, or of the one species."""
        if hour not in self._used:  # the three courses of a band ask for the same hours
            self._used[hour] = self._use(hour)
        return self._used[hour]

    def _use(self, hour: float) -> Estimate:
        celsius = self.course_c.at(hour)
        aboard: dict[float, float] = {}
        for each in self.boardings:
            if each.aboard(hour):
                aboard[each.mass_g] = aboard.get(each.mass_g, 0.0) + each.kg
        total = NOTHING
        for mass_g, kg in aboard.items():
            total = total.plus(estimate_mg_per_kg_h(self.species, mass_g, celsius).times(kg))
        return total.times(self.times_rest)

    def run(self, *, start: float, fresh: float, rates: Callable[[float], Rates]) -> Course:
        """Follow a dissolved quantity through the day: see `mixed.follow`.

        Parameters
        ----------
        start, fresh : float
            Its concentration at the start and in the lake water of the changes.
        rates : callable
            Hour -> `Rates`, per hour and in concentration per hour.
        """
        comings = [each.hour for each in self.boardings]
        goings = [each.until_hour for each in self.boardings if each.until_hour is not None]
        return follow(
            start=start,
            hours=self.hours,
            rates=rates,
            jumps=jumps(self.changes, fresh),
            breaks=[*comings, *goings, *self.course_c.hours],
        )

    def build_up(self, *, gain: Estimate, start: float, fresh: float, loss_per_h: Callable[[float], Estimate]) -> Band:
        """A waste that fish give off as a share of the oxygen they use, mg/L over the day.

        Parameters
        ----------
        gain : Estimate
            mg given off per mg of oxygen used.
        start, fresh : float
            mg/L at the start and in the lake water; what is lost to the air is lost towards `fresh`.
        loss_per_h : callable
            Hour -> coefficient of the loss to the air.

        Returns
        -------
        Band
            `low` with the least use, the smallest gain and the quickest loss.
        """

        def course(use: int, loss: int) -> Course:
            def rates(hour: float) -> Rates:
                given_off = self.use_mg_per_h(hour).ends[use] * gain.ends[use] / self.volume_l
                return Rates(loss_per_h(hour).ends[loss], fresh, given_off)

            return self.run(start=start, fresh=fresh, rates=rates)

        return Band(low=course(0, 2), stated=course(1, 1), high=course(2, 0))
