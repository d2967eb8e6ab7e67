"""A club's dead fish over its seasons: rates with ranges, the change from one to the next, and among days alike."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from django.utils.translation import gettext, gettext_noop

from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.mortality.domain.words import counted, figures, limits, listed, number, seen, some_of
from weighin.mortality.queries.event_sums import EventSum, event_sums
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.comparing.change import Change, change
from weighin.survival.comparing.standardisation import standardise
from weighin.survival.nested import SAME_DAY

WARM_F = 75.0  # care steps begin here: Kansas agency rule, Mississippi guidance
COOLER, WARMER = gettext_noop("cooler"), gettext_noop("warmer")
FEWEST_SEASONS = 5  # for a word on a direction: common practice, no source


@dataclass(frozen=True)
class SeasonRate:
    """A season with fish. ``rate`` counts each event as one; of one event alone its fish one by one, which is too sure."""

    season: Season
    events: Sequence[EventSum]

    @cached_property
    def rate(self) -> Clustered:
        return rate_of(self.events)

    @property
    def bands(self) -> dict[str, Clustered]:
        """Rates of cooler and warmer days; events without a temperature are in neither."""
        parted: dict[str, list[EventSum]] = {}
        for event in self.events:
            if event.lake_f is not None:
                parted.setdefault(WARMER if event.lake_f >= WARM_F else COOLER, []).append(event)
        return {band: rate_of(of_it) for band, of_it in parted.items()}

    @property
    def is_one_event(self) -> bool:
        return len(self.events) == 1

    @property
    def seen(self) -> str:
        return seen(self.rate)

    @property
    def limits(self) -> str:
        return limits(self.rate)


@dataclass(frozen=True)
class Step:
    """From one season to the next: the change of the rate, and of the rate among days alike (None where there are none)."""

    before: SeasonRate
    after: SeasonRate
    whole: Change | None
    alike: Change | None

    @property
    def said(self) -> str:
        """The change of the whole rate in words."""
        names = gettext("From %(before)s to %(after)s") % {
            "before": self.before.season.name,
            "after": self.after.season.name,
        }
        if self.whole is None:
            lone = [one.season.name for one in (self.before, self.after) if one.is_one_event]
            return gettext(
                "%(names)s nothing can be said: %(lone)s had one event with fish, and one day does not show how days differ."
            ) % {"names": names, "lone": listed(lone)}
        return f"{names} {_changed(self.whole)}"

    @property
    def alike_said(self) -> str:
        """The change among days alike, or why there is none."""
        if self.alike is None:
            return gettext(
                "Among days alike they cannot be compared: that takes two events of each season on cooler days, or on warmer ones."
            )
        return gettext(
            "With cooler and warmer days (from %(warm_f)s °F on) put to one mix, so that a cool season is not taken for good care, %(changed)s"
        ) % {"warm_f": f"{WARM_F:.0f}", "changed": _changed(self.alike)}


@dataclass(frozen=True)
class Trend:
    """A club's seasons with fish, oldest first."""

    club: Club
    seasons: Sequence[SeasonRate]

    @cached_property
    def steps(self) -> list[Step]:
        return [_step(before, after) for before, after in pairwise(self.seasons)]

    def up_to(self, season: Season) -> "Trend":
        """The seasons that were there when this one ended; none where it has no fish."""
        known = [one.season for one in self.seasons]
        return Trend(self.club, self.seasons[: known.index(season) + 1] if season in known else [])

    @property
    def title(self) -> str:
        """What the seasons say together, and no more."""
        if not self.seasons:
            return gettext("No season with fish yet.")
        if len(self.seasons) == 1:
            return gettext("One season is no trend.")
        last = self.steps[-1]
        names = gettext("from %(before)s to %(after)s") % {
            "before": last.before.season.name,
            "after": last.after.season.name,
        }
        if last.whole is None or not last.whole.is_shown:
            return gettext("No change shows %(names)s.") % {"names": names}
        return (
            gettext("More of the fish were dead in %(after)s than in %(before)s.")
            if last.whole.difference > 0
            else gettext("Fewer of the fish were dead in %(after)s than in %(before)s.")
        ) % {"after": last.after.season.name, "before": last.before.season.name}

    @property
    def says(self) -> str:
        """How far seasons can be read."""
        if not self.seasons:
            return gettext("Once a season has fish at the scales, its rate stands here beside the others.")
        if len(self.seasons) < 2:
            return gettext("The next season will stand beside this one, with the change and how sure it is.")
        said = gettext("A change seen is not a change made: waters, months, weather and members change too.")
        if len(self.seasons) < FEWEST_SEASONS:
            said = (
                gettext("%(seasons)s seasons are too few to tell a direction.")
                % {"seasons": number(len(self.seasons)).capitalize()}
                + " "
                + said
            )
        return said


def club_trend(club: Club) -> Trend:
    """The club's seasons with fish, by their first event; four queries whatever their number."""
    by_season: dict[int, list[EventSum]] = {}
    for event in event_sums(Event.objects.filter(season__club=club)):
        by_season.setdefault(event.season, []).append(event)
    seasons = {season.pk: season for season in club.seasons.all()}
    return Trend(club, [SeasonRate(seasons[pk], events) for pk, events in by_season.items()])


def rate_of(events: Sequence[EventSum]) -> Clustered:
    """The rate with each event as one cluster."""
    return clustered([event.dead for event in events], [event.presented for event in events], correlation=SAME_DAY)


def _step(before: SeasonRate, after: SeasonRate) -> Step:
    whole = None if before.is_one_event or after.is_one_event else change(before.rate, after.rate)
    return Step(before, after, whole, _alike(before.bands, after.bands))


def _alike(before: dict[str, Clustered], after: dict[str, Clustered]) -> Change | None:
    """The change with both seasons put to their common mix of cooler and warmer days."""
    shared = [band for band in (COOLER, WARMER) if band in before and band in after]
    shared = [band for band in shared if before[band].clusters > 1 and after[band].clusters > 1]
    if not shared:
        return None
    mix = {band: before[band].n + after[band].n for band in shared}
    return change(standardise(before, mix), standardise(after, mix))


def _changed(moved: Change) -> str:
    points = gettext("%(difference)s points") % {"difference": figures(abs(moved.difference))}
    reach = gettext("95 %% range %(low)s to %(high)s") % {
        "low": _signed(moved.low),
        "high": _signed(moved.high),
    }
    if not moved.is_shown:
        return (
            gettext("no clear difference: up %(points)s (%(reach)s).")
            if moved.difference > 0
            else gettext("no clear difference: down %(points)s (%(reach)s).")
        ) % {"points": points, "reach": reach}
    return (
        gettext("the rate went up by %(points)s (%(reach)s).")
        if moved.difference > 0
        else gettext("the rate went down by %(points)s (%(reach)s).")
    ) % {"points": points, "reach": reach}


def _signed(share: float) -> str:
    return f"{'+' if share > 0 else ''}{figures(share)}"


def trend_rows(found: Trend) -> list[dict[str, str]]:
    """The seasons as a table writes them, oldest first."""
    return [
        {
            "season": one.season.name,
            "events": counted(len(one.events), "event"),
            "count": some_of(one.rate.dead, one.rate.n),
            "rate": one.seen,
            "limits": one.limits,
            "bands": "; ".join(
                gettext("%(band)s days %(rate)s (%(limits)s) of %(fish)s, %(events)s")
                % {
                    "band": gettext(band),
                    "rate": seen(rate),
                    "limits": limits(rate),
                    "fish": counted(int(rate.n), "fish"),
                    "events": counted(rate.clusters, "event"),
                }
                for band, rate in sorted(one.bands.items())
            ),
        }
        for one in found.seasons
    ]
