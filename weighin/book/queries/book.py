"""All that a season book holds, each part worked out where it belongs."""

from collections.abc import Sequence
from dataclasses import dataclass

from weighin.agency.queries.catch import CatchFigures, season_catch
from weighin.clubs.models import Season
from weighin.mortality.queries.practices import Compared, compared
from weighin.mortality.queries.season import SeasonMortality, season_mortality
from weighin.mortality.queries.trend import Step, Trend, club_trend
from weighin.seasons.queries.standings import SeasonStandings, season_standings


@dataclass(frozen=True)
class SeasonBook:
    """A season as the club's winter meeting looks at it; ``catch`` is None before its first slip.

    ``seasons`` are the club's with fish up to this one. ``standings`` and so the book have anglers' names.
    """

    season: Season
    standings: SeasonStandings
    mortality: SeasonMortality
    practices: Sequence[Compared]
    seasons: Trend
    catch: CatchFigures | None

    @property
    def since(self) -> Step | None:
        """From the season before to this one; None where either has no fish."""
        return self.seasons.steps[-1] if self.seasons.steps else None


def season_book(season: Season) -> SeasonBook:
    """The book as things stand now."""
    mortality = season_mortality(season)
    return SeasonBook(
        season=season,
        standings=season_standings(season),
        mortality=mortality,
        practices=compared(mortality),
        seasons=club_trend(season.club).up_to(season),
        catch=season_catch(season),
    )
