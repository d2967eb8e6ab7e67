"""One boat's day: its fish, its times and its care, and the rows these become in a workbook."""

from dataclasses import dataclass, field
from typing import Any

from .scales import Scale

Row = dict[str, Any]


def clock(seconds: int, exact: bool = False) -> str:
    """Seconds since midnight as ``HH:MM``, or ``HH:MM:SS``."""
    minutes, rest = divmod(seconds, 60)
    written = f"{minutes // 60:02d}:{minutes % 60:02d}"
    return f"{written}:{rest:02d}" if exact else written


@dataclass
class Catch:
    """Fish are ``(weight in the scale's steps, dead)``, largest first; times are seconds since midnight.

    Fish that were not ``held`` were weighed in the boat and let go at once: no livewell, no bag, no line.
    """

    day: int
    boat: int
    team: str
    fish: list[tuple[int, bool]]
    times: dict[str, int]
    care: Row
    tare: int
    black: int | None = None
    short: int = 0
    removed: int = 0
    late: bool = False
    held: bool = True
    official: str = ""
    slip: int = 0
    extra: Row = field(default_factory=dict)

    @property
    def dead(self) -> int:
        return sum(dead for _, dead in self.fish)

    @property
    def on_scale(self) -> list[tuple[int, bool]]:
        """The legal fish; the smallest are the short ones."""
        return self.fish[: len(self.fish) - self.short]

    @property
    def net(self) -> int:
        return sum(weight for weight, _ in self.on_scale)

    def row(self, scale: Scale) -> Row:
        """The row of the Slips sheet."""
        fish, times = len(self.fish), self.times
        row: Row = {
            "slip": self.slip, "day": self.day, "boat": self.boat,
            "fish": fish, "alive": fish - self.dead, "dead": self.dead, "official": self.official,
            "checked_in": clock(times["checked_in"], exact=self.late),
        }  # fmt: skip
        if self.held:
            row["weighed"] = clock(times["weighed"])
        if self.fish:
            big, big_dead = self.fish[0]
            row |= {
                "short": self.short,
                "gross": scale.show(self.net + self.tare),
                "tare": scale.show(self.tare),
                "big_fish": scale.show(big if not self.removed else self.fish[self.removed][0]),
                "big_fish_alive": "no" if big_dead else "yes",
                "dead_at_release": 0,
            }
            if self.held:
                row |= {name: clock(times[name]) for name in ("bag_issued", "bag_emptied", "released")}
            if self.black is not None:
                row |= {"black_crappie": self.black, "white_crappie": fish - self.black}
            if self.removed:
                row["largest_weights"] = ", ".join(str(scale.show(weight)) for weight, _ in self.fish[: self.removed])
        return row | self.extra

    def care_row(self) -> Row:
        """The row of the Fish care sheet."""
        times: Row = {name: clock(self.times[name]) for name in ("launched", "first_fish") if name in self.times}
        care = self.care if self.held else {name: self.care[name] for name in ("deep_hooked", "barotrauma")}
        return {"day": self.day, "boat": self.boat, **times, **care}
