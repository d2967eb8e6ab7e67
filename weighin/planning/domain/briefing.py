"""What a briefing says of one day of an event."""

from dataclasses import dataclass

from weighin.events.models import Event, EventDay


@dataclass(frozen=True)
class Line:
    """A line of the briefing: what it is about, and its sentences."""

    label: str
    words: str


@dataclass(frozen=True)
class Briefing:
    """One day's briefing. ``finding`` is what matters most; ``permit`` is for members only."""

    event: Event
    day: EventDay
    days: tuple[int, ...]
    finding: str
    times: tuple[Line, ...]
    figures: tuple[Line, ...]
    supposed: str
    care: tuple[Line, ...]
    rules: tuple[Line, ...]
    cautions: tuple[tuple[str, str], ...]
