"""What was measured: one row a measure, a table at the end of the run."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Measure:
    """``ours`` beside ``floor``, both of the same run and in ``unit``; the bar is on how many times the floor, or on ours."""

    name: str
    ours: float
    unit: str
    floor: float | None
    floor_name: str
    bar: str
    holds: bool

    @property
    def times(self) -> float | None:
        return None if self.floor is None else self.ours / self.floor

    def cells(self) -> tuple[str, ...]:
        beside = "" if self.floor is None else f"{shown(self.floor)} {self.unit}, {self.floor_name}"
        times = "" if self.times is None else f"{self.times:.2f}" if self.times < 1 else f"{self.times:.1f}"
        return self.name, f"{shown(self.ours)} {self.unit}", beside, times, self.bar


HEAD = ("Measure", "Here", "Floor in the same run", "Times", "Bar")


def shown(value: float) -> str:
    """A figure with three digits that say something."""
    return f"{value:,.0f}" if value >= 100 else f"{value:.1f}" if value >= 10 else f"{value:.2f}"


def table(rows: "list[Measure]") -> str:
    """The rows as a Markdown table."""
    lines = [HEAD, ("---", "---:", "---", "---:", "---"), *(row.cells() for row in rows)]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


class Measured:
    """Takes measures down and holds each to its bar."""

    def __init__(self, rows: "list[Measure]"):
        self.rows = rows

    def __call__(
        self,
        name: str,
        ours: float,
        unit: str,
        floor: float | None = None,
        floor_name: str = "",
        *,
        at_most: float | None = None,
        at_least: float | None = None,
    ) -> None:
        """Raises AssertionError when the times of the floor (without one: the figure) are past ``at_most`` or ``at_least``."""
        compared = ours if floor is None else ours / floor
        bar, holds = "", True
        if at_most is not None:
            bar, holds = f"at most {at_most:g}", compared <= at_most
        if at_least is not None:
            bar, holds = f"at least {at_least:g}", compared >= at_least
        bar += f" {unit}" if bar and floor is None else ""
        row = Measure(name, ours, unit, floor, floor_name, bar, holds)
        self.rows.append(row)
        assert holds, " | ".join(row.cells())
