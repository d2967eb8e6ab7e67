"""An event as the rows of its workbook, and the acts that follow a slip at the table."""

from dataclasses import dataclass, field
from typing import Any

from .catch import Catch, Row
from .clubs import SCALES
from .scales import Scale


@dataclass
class Book:
    """The sheets of one event workbook."""

    file: str
    scale: Scale
    event: Row
    rules: Row
    days: list[Row]
    teams: list[Row]
    flights: list[Row] = field(default_factory=list)
    slips: list[Row] = field(default_factory=list)
    care: list[Row] = field(default_factory=list)
    tanks: list[Row] = field(default_factory=list)
    holding: list[Row] = field(default_factory=list)

    def team(self, name: str) -> Row:
        return next(team for team in self.teams if team["team"] == name)

    def say(self, name: str, **values: Any) -> None:
        """Write on a team's row."""
        self.team(name).update(values)

    def lay_down(
        self, catches: dict[str, Catch], officials: tuple[str, str] = SCALES, no_care: tuple[str, ...] = ()
    ) -> None:
        """Write a day's slips, numbered as they were weighed, and its care notes."""
        ordered = sorted(catches.values(), key=lambda c: (c.times["weighed"], c.boat))
        for number, catch in enumerate(ordered, start=self._next()):
            catch.slip = number
            catch.official = officials[number % 2]
        self.slips += [catch.row(self.scale) for catch in ordered]
        self.care += [c.care_row() for c in sorted(catches.values(), key=lambda c: c.boat) if c.team not in no_care]

    def slip_of(self, name: str, day: int = 1) -> Row:
        """The team's current slip of the day."""
        boat = self.team(name)["boat"]
        gone = {slip.get("replaces") for slip in self.slips}
        return next(s for s in self.slips if (s["day"], s["boat"]) == (day, boat) and s["slip"] not in gone)

    def mistake(self, name: str, reason: str, day: int = 1, **wrong: Any) -> None:
        """The team's slip was first written wrong: that one stays, and what is there now becomes its correction."""
        right = self.slip_of(name, day)
        first = {**right, **wrong}
        place = self.slips.index(right)
        right |= {"slip": self._next(), "replaces": first["slip"], "reason": reason}
        self.slips[place] = first
        self.slips.append(right)

    def rule_on(self, name: str, reason: str, day: int = 1, **changes: Any) -> None:
        """The director rules on a slip: a new one replaces it."""
        old = self.slip_of(name, day)
        self.slips.append({**old, **changes, "slip": self._next(), "replaces": old["slip"], "reason": reason})

    def void(self, name: str, reason: str, day: int = 1) -> None:
        """Take a team's slip out; the boat then has none that day."""
        old = self.slip_of(name, day)
        self.slips.append(
            {"slip": self._next(), "day": day, "boat": old["boat"], "replaces": old["slip"], "reason": reason, "void": "yes"}
        )  # fmt: skip

    def _next(self) -> int:
        return max((slip["slip"] for slip in self.slips), default=100) + 1


def no_fish(catch: Catch) -> None:
    """The team comes in with an empty livewell."""
    catch.fish, catch.black = [], None
    catch.times.pop("first_fish", None)
    for name in ("livewell_do", "reflexes_absent", "reflexes_checked"):
        catch.care.pop(name, None)
    catch.care |= {"most_on_board": 0, "deep_hooked": 0, "barotrauma": 0}


def late_by(catch: Catch, due_minutes: int, seconds: int) -> None:
    """The team checks in after the due time, and its later times follow."""
    moved = due_minutes * 60 + seconds - catch.times["checked_in"]
    for name in ("checked_in", "bag_issued", "weighed", "bag_emptied", "released"):
        catch.times[name] += moved
    catch.late = True
