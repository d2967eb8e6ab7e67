"""What a livewell will do over a day: the answer to a question, by the models of ``livewell``.

Pure: no clock, database or request. What nobody knows to one number is an `Estimate` or a `Band`.
"""

from dataclasses import dataclass
from functools import cached_property
from math import ceil

from django.utils.translation import gettext

from weighin.livewell import budget, carbon_dioxide, loading, supply, transfer
from weighin.livewell.bag import FLOOR_MG_L, minutes_until_floor
from weighin.livewell.day import LivewellDay
from weighin.livewell.figures.course import Band, Course
from weighin.livewell.figures.estimate import NOTHING, Estimate
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.figures.units import kilograms, litres
from weighin.livewell.ice import melt
from weighin.livewell.oxygen import saturation_mg_l
from weighin.livewell.temperature.ice_plan import IcePlan, ice_plan
from weighin.planning.domain.question import DoNotHold, Question

AT_REST, FRESHLY_CAUGHT = 1.0, 3.0  # freshly caught fish use several times more (from memory): three is our choice
FLOORS_MG_L = (FLOOR_MG_L, 4.0)  # 5 is common practice; 4 is where a stopped pump has become an emergency (ours)
TIMER_SHARE = 0.25  # one minute in four: our example, timers differ
DEPTH_M = 0.30  # a well about a foot deep, for the size of its surface: ours, no source
BAG_L, BAG_KG = litres(2), kilograms(15)  # Kansas, K.A.R. 115-7-8: 2 gal of water, at most 15 lb of fish
NO_ICE_C = 40.0


@dataclass(frozen=True)
class IceHour:
    """One look at the well: as in `ice_plan.Icing`, the ice with its ends."""

    hour: float
    found_c: float
    left_c: float
    ice_kg: Estimate
    changed_share: float


@dataclass(frozen=True)
class Stop:
    """Minutes from a level of oxygen to each of `FLOORS_MG_L` with the pump stopped."""

    times_rest: float
    start_mg_l: float
    full: bool
    minutes: tuple[Estimate, ...]


@dataclass(frozen=True)
class Bag:
    """The weigh-in bags: how many, fish in the fullest, minutes to 5 mg/L at rest and freshly caught."""

    count: int
    fish: int
    at_rest: Estimate
    freshly_caught: Estimate


@dataclass(frozen=True)
class Answer:
    """The answer to a `question`. Bands and minutes are worked out when they are first asked for."""

    question: Question
    plans: tuple[IcePlan, IcePlan, IcePlan]
    transfer_per_h: Estimate

    @property
    def temperature_c(self) -> Course:
        """The well's water with the stated warming."""
        return self.plans[1].temperature_c

    @property
    def drop_c(self) -> float:
        """How far below the lake the well is at weigh-in, °C; negative when it is warmer."""
        return self.question.lake_c - self.temperature_c.last

    @property
    def ice_kg(self) -> Estimate:
        return _estimate(*(plan.total_kg for plan in self.plans))

    @cached_property
    def icings(self) -> tuple[IceHour, ...]:
        low, stated, high = (plan.icings for plan in self.plans)
        return tuple(
            IceHour(
                hour=look.hour,
                found_c=look.found_c,
                left_c=min(look.found_c, look.wanted_c),
                ice_kg=_estimate(low[i].ice_kg, look.ice_kg, high[i].ice_kg),
                changed_share=look.changed_share,
            )
            for i, look in enumerate(stated)
        )

    @cached_property
    def ice_gone_h(self) -> float | None:
        """The hour at which the ice aboard no longer covers the plan; None when it does or none was named."""
        left = self.question.ice_aboard_kg
        if left is None:
            return None
        for look in self.icings:
            left -= look.ice_kg.stated
            if left < -0.005:
                return look.hour
        return None

    @cached_property
    def all_at_once_c(self) -> float | None:
        """The well's temperature if all the ice aboard went in at filling."""
        asked = self.question
        if not asked.ice_aboard_kg:
            return None
        return melt(asked.volume_l, asked.lake_c, asked.ice_aboard_kg).temperature_c

    @cached_property
    def at_rest(self) -> LivewellDay:
        return self._day(AT_REST)

    @cached_property
    def freshly_caught(self) -> LivewellDay:
        return self._day(FRESHLY_CAUGHT)

    @cached_property
    def oxygen_at_rest(self) -> Band:
        return self._oxygen(self.at_rest)

    @cached_property
    def oxygen_freshly_caught(self) -> Band:
        return self._oxygen(self.freshly_caught)

    @cached_property
    def carbon_at_rest(self) -> Band:
        return self._carbon(self.at_rest)

    @cached_property
    def carbon_freshly_caught(self) -> Band:
        return self._carbon(self.freshly_caught)

    @property
    def full_mg_l(self) -> float:
        """Oxygen of saturated water at the well's temperature at weigh-in."""
        return saturation_mg_l(self.temperature_c.last, self.question.pressure_mmhg)

    @property
    def load(self) -> float:
        """The fish against the handbook's one pound a gallon: 1 is full."""
        return loading.share_of_capacity(fish_kg=self.question.kg, volume_l=self.question.volume_l)

    @cached_property
    def stops(self) -> tuple[Stop, ...]:
        """The pump stopped at weigh-in: from water full of oxygen, then from what the plan says is left."""
        left = ((AT_REST, self.oxygen_at_rest), (FRESHLY_CAUGHT, self.oxygen_freshly_caught))
        return (
            *(self._stop(times, self.full_mg_l, full=True) for times, _ in left),
            *(self._stop(times, min(band.stated.last, self.full_mg_l), full=False) for times, band in left),
        )

    @property
    def stop_at_rest(self) -> Stop:
        """From full water at rest: what `stops` begins with, worked out without the bands."""
        return self._stop(AT_REST, self.full_mg_l, full=True)

    @cached_property
    def bag(self) -> Bag | None:
        """Bags of 2 gal with at most 15 lb of fish; None when one fish alone is heavier than that."""
        asked = self.question
        count = bags_for(asked.fish, asked.mass_g)
        if count is None:
            return None
        fish = ceil(asked.fish / count)
        rest, fresh = (self._minutes(fish * asked.mass_g / 1000 / BAG_L, times) for times in (AT_REST, FRESHLY_CAUGHT))
        return Bag(count, fish, rest, fresh)

    def _day(self, times_rest: float) -> LivewellDay:
        asked = self.question
        return LivewellDay(
            volume_l=asked.volume_l,
            hours=asked.hours,
            boardings=asked.boardings,
            temperature_c=self.temperature_c,
            species=asked.species,
            times_rest=times_rest,
            changes=asked.changes,
        )

    def _oxygen(self, day: LivewellDay) -> Band:
        asked = self.question
        return _in_order(
            budget.oxygen_mg_l(
                day,
                transfer_per_h=self.transfer_per_h,
                supply_mg_per_h=supply.mg_per_h(flow_l_per_min=asked.oxygen_l_per_min),
                pressure_mmhg=asked.pressure_mmhg,
                start_mg_l=asked.lake_mg_l,
                lake_mg_l=asked.lake_mg_l,
            )
        )

    def _carbon(self, day: LivewellDay) -> Band:
        vent = self.transfer_per_h if self.question.vented else NOTHING
        return carbon_dioxide.build_up_mg_l(day, vent_per_h=vent)

    def _stop(self, times_rest: float, start: float, full: bool) -> Stop:
        asked = self.question
        minutes = (
            self._minutes(asked.kg / asked.volume_l, times_rest, start_mg_l=start, floor_mg_l=floor)
            for floor in FLOORS_MG_L
        )
        return Stop(times_rest, start, full, tuple(minutes))

    def _minutes(self, kg_per_l: float, times_rest: float, **levels: float) -> Estimate:
        asked = self.question
        return minutes_until_floor(
            water_l=1.0,
            fish_kg=kg_per_l,
            mass_g=asked.mass_g,
            temperature_c=self.temperature_c.last,
            species=asked.species,
            times_rest=times_rest,
            pressure_mmhg=asked.pressure_mmhg,
            **levels,
        )


def bags_for(fish: int, mass_g: float) -> int | None:
    """How many bags of at most 15 lb so many fish want; None when one fish alone is heavier than that."""
    most = int(BAG_KG * 1000 / mass_g + 1e-9)
    return ceil(fish / most) if most else None


def work_out(question: Question) -> Answer:
    """The answer to a question.

    Raises
    ------
    DoNotHold
        When the lake is too warm to hold fish at all.
    OutOfRange
        With the name of the figure that is out of the models' range, or that does not go with another one (a
        ValueError).

    Examples
    --------
    >>> from weighin.livewell.figures.units import celsius
    >>> asked = Question(volume_l=90, lake_c=celsius(86), elevation_m=220, fish=7, mass_g=590, hours=8, air_c=33)
    >>> answer = work_out(asked)
    >>> round(answer.drop_c, 1), [round(end, 1) for end in answer.ice_kg.ends]
    (2.7, [4.1, 6.7, 10.1])
    """
    if not question.may_hold:
        raise DoNotHold(question)
    if question.ice_aboard_kg is not None and question.ice_aboard_kg > question.volume_l:
        raise OutOfRange("ice_aboard_kg", gettext("The ice is heavier than the water: check both figures."))
    answer = Answer(question, _plans(question), _transfer(question))
    try:
        answer.at_rest  # noqa: B018 - a day out of range is told now
    except OutOfRange as problem:
        raise _too_warm(problem) from None
    return answer


def _plans(asked: Question) -> tuple[IcePlan, IcePlan, IcePlan]:
    """The ice with the least, the stated and the most warming."""

    def plan(per_h: float) -> IcePlan:
        return ice_plan(
            volume_l=asked.volume_l + asked.kg,
            fill_c=asked.lake_c,
            hold_c=asked.hold_c if asked.ice else NO_ICE_C,
            outside_c=asked.air_c,
            hours=asked.hours,
            warming_per_h=per_h,
            step_c=asked.step_c,
            changes=asked.changes,
        )

    try:
        low, stated, high = (plan(per_h) for per_h in asked.warming_per_h.ends)
    except OutOfRange as problem:
        raise _too_warm(problem) from None
    return low, stated, high


def _too_warm(problem: OutOfRange) -> OutOfRange:
    """A well that warms past what is known of fish is a matter of the air and the ice."""
    if problem.name in ("temperature_c", "from_c"):
        return OutOfRange(
            "air_c", gettext("The livewell would get warmer than is known of these fish: use ice, or fewer hours.")
        )
    return problem


def _transfer(asked: Question) -> Estimate:
    """Surface and pump together, per hour at 20 °C, as measured or else as estimated."""
    on = TIMER_SHARE if asked.on_timer else 1.0
    if asked.transfer_per_h is not None:
        total = asked.transfer_per_h.times(on)
    else:
        pump = transfer.pump_per_h(flow_l_per_h=asked.flow_l_per_h, volume_l=asked.volume_l, share_on=on)
        surface = transfer.surface_per_h(area_m2=asked.volume_l / 1000 / DEPTH_M, volume_l=asked.volume_l)
        total = transfer.together(surface, pump)
    if total.high > 100:
        raise OutOfRange("flow_l_per_h", gettext("Such a pump turns so little water over too often to be worked out."))
    return total


def _estimate(low: float, stated: float, high: float) -> Estimate:
    """Three figures as an estimate, in order even where the ice of less warming is more."""
    return Estimate(min(low, stated), stated, max(stated, high))


def _in_order(band: Band) -> Band:
    """The band with its ends the lowest and highest of its three courses at each hour.

    Water that warms holds more than saturation for a while, and then less transfer leaves more oxygen in it.
    """
    three = list(zip(band.low.values, band.stated.values, band.high.values, strict=True))
    hours = band.stated.hours
    return Band(
        low=Course(hours=hours, values=tuple(map(min, three))),
        stated=band.stated,
        high=Course(hours=hours, values=tuple(map(max, three))),
    )
