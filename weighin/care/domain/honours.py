"""Honours for careful teams that a few lucky fish cannot win.

A team's share of dead fish is drawn toward the teams' mean by as much as its few fish deserve (empirical Bayes, see
``survival.shrinkage``), after its fish are counted down for sharing a livewell. Only a team whose drawn-in share lies
below the club's with its upper limit too is honoured; the order alone is no honour.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext_lazy

from weighin.survival.nested import nested
from weighin.survival.shrinkage import Shrunk, shrink

ONE_SIDED = 0.90  # limits at 90 % have 5 % beyond each
METHOD = gettext_lazy(
    "Adjusted for small numbers: each team’s share of dead fish is drawn toward the teams’ mean, the more the fewer "
    "its fish (empirical Bayes, beta-binomial; Kleinman 1973; Gelman et al. 2013, ch. 5). Fish of one day’s livewell "
    "are counted down, since they live or die together (Rao & Scott 1992). A team is named when its upper limit, "
    "one-sided 95 %, lies below the club’s share."
)


@dataclass(frozen=True)
class Standing:
    """A team's place by its shrunken share of dead fish; ``honoured`` when it is lower by more than luck."""

    team: Hashable
    place: int
    shrunk: Shrunk
    honoured: bool


@dataclass(frozen=True)
class Honours:
    """The teams by shrunken share, lowest first; ``club`` is the share of all their fish together.

    ``design_effect`` is how many fish of one day's livewell stand for one held by itself.
    """

    standings: Sequence[Standing]
    club: float
    design_effect: float

    @property
    def honoured(self) -> list[Standing]:
        return [standing for standing in self.standings if standing.honoured]


def honours(rows: Sequence[tuple[Hashable, int, int]]) -> Honours | None:
    """Honours from (team, dead, fish) of every team and day. None with fewer than two teams that had fish.

    Raises ValueError when a count is negative or more fish are dead than were brought.
    """
    rows = [row for row in rows if row[2]]
    teams = list(dict.fromkeys(team for team, _, _ in rows))
    if len(teams) < 2:
        return None
    effect = nested(
        [d for _, d, _ in rows], [n for _, _, n in rows], [t for t, _, _ in rows]
    ).these_events.design_effect
    dead = [sum(d for t, d, _ in rows if t == team) for team in teams]
    fish = [sum(n for t, _, n in rows if t == team) for team in teams]
    club = sum(dead) / sum(fish)
    drawn = shrink([d / effect for d in dead], [n / effect for n in fish], ONE_SIDED)
    order = sorted(zip(teams, drawn, fish, strict=True), key=lambda found: (found[1].rate, -found[2]))
    standings = [
        Standing(team, 1 + sum(other.rate < shrunk.rate for other in drawn), shrunk, shrunk.high < club)
        for team, shrunk, _ in order
    ]
    return Honours(standings, club, effect)
