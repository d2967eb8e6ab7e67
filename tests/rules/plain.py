"""Short ways to write rule sheets, slips, results and teams in these tests."""

from decimal import Decimal
from typing import Any

from weighin.rules import rulebook
from weighin.rules.ranking import Ranked, rank
from weighin.rules.results import ROSTER_STATUSES, DayResult, Team, TeamResult, team_result
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import Score, score
from weighin.rules.slips import Slip

D = Decimal


def rules(unit: str = "lb", **written: str) -> Rulebook:
    """A rule sheet with these keys written and every other key at its default."""
    return rulebook.read(written, unit)


def slip(alive: int = 0, dead: int = 0, **seen: Any) -> Slip:
    """A slip of ``alive`` + ``dead`` fish; weights as text; ``largest`` as text with commas."""
    for name in ("gross", "tare", "big_fish", "extra_penalty"):
        if isinstance(seen.get(name), str):
            seen[name] = D(seen[name])
    if "largest" in seen:
        seen["largest_weights"] = tuple(D(part) for part in seen.pop("largest").split(","))
    return Slip(fish=alive + dead, alive=alive, dead=dead, **seen)


def scored(seen: Slip, unit: str = "lb", **written: str) -> Score:
    """The slip's score under these rules."""
    return score(rules(unit, **written), seen)


def lines(result: Score) -> list[tuple[str, int, str]]:
    """A score's deductions as (reason, count, amount as text)."""
    return [(line.reason, line.count, str(line.amount)) for line in result.deductions]


def weighed_team(boat: int, *days: str, **more: Any) -> TeamResult:
    """A ranked team whose days weigh ``days``; ``more`` goes to the team or its result."""
    for_team = {name: more.pop(name) for name in ("paid", "big_fish_pot", "lot", "status") if name in more}
    result = team_result(
        Team(boat=boat, name=f"Team {boat}", **for_team),
        [
            DayResult(number, slip(5, gross=weight), scored(slip(5, gross=weight)))
            for number, weight in enumerate(days, start=1)
        ],
    )
    return TeamResult(**{**result.__dict__, **more})


def bare_team(boat: int, status: str, **team: Any) -> TeamResult:
    """A team without a place: any status of the list but ranked."""
    if status in ROSTER_STATUSES:
        team["status"] = status
    result = team_result(Team(boat=boat, name=f"Team {boat}", **team), [])
    return TeamResult(**{**result.__dict__, "status": status})


def ranked(results: list[TeamResult], days: tuple[int, ...] = (1,), **written: str) -> list[Ranked]:
    """The list of these results under these rules."""
    return rank(rules(**written), results, days)


def places(listed: list[Ranked]) -> list[tuple[int, int | None]]:
    """(boat, place) in the order of the list."""
    return [(row.result.team.boat, row.place) for row in listed]
