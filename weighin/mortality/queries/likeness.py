"""How alike the fates of two fish of one livewell are at a club's events, for the rule of the stop level."""

from collections import Counter
from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.survival.clusters import CORRELATION
from weighin.survival.nested import nested

FEWEST_EVENTS = 8
MOST_ALIKE = 0.9


@dataclass(frozen=True)
class Likeness:
    """A correlation within livewells, and how many of the club's events it is from; 0 where it is assumed."""

    correlation: float = CORRELATION
    events: int = 0

    @property
    def said(self) -> str:
        """Where the figure is from."""
        if self.events:
            return gettext(
                "correlation %(correlation)s, estimated from the club’s %(events)s events before this one"
            ) % {"correlation": f"{self.correlation:.2f}", "events": self.events}
        return gettext(
            "correlation %(correlation)s, assumed: fewer than %(fewest_events)s events of the club came before this one"
        ) % {"correlation": f"{self.correlation:g}", "fewest_events": FEWEST_EVENTS}


def livewell_likeness(event: Event) -> Likeness:
    """From the club's earlier events, of which eight with fish are needed; in one query.

    What the fish of one day have in common beyond their livewell is taken out: the rule asks for one day's losses.
    """
    rows = (
        WeighSlip.objects.current()
        .filter(
            event__season__club_id=event.season.club_id,
            event__date__lt=event.date,
            event__rehearsal_of=None,
            fish__gt=0,
        )
        .order_by("event_id", "day", "number")
        .values_list("event_id", "entry__boat", "day", "well_boat", "fish", "dead", "dead_at_release")
    )
    slips = list(rows)
    doubled = {key for key, count in Counter(slip[:3] for slip in slips).items() if count > 1}
    wells: dict[tuple[int, int], list[int]] = {}
    for of_event, boat, day, well, fish, dead, at_release in slips:
        if (of_event, boat, day) not in doubled:
            sums = wells.setdefault((of_event, well or boat), [0, 0])
            sums[0] += dead + (at_release or 0)
            sums[1] += fish
    events = {of_event for of_event, _ in wells}
    if len(events) < FEWEST_EVENTS:
        return Likeness()
    dead_of, fish_of = ([sums[place] for sums in wells.values()] for place in (0, 1))
    found = nested(dead_of, fish_of, [of_event for of_event, _ in wells])
    if found.same_livewell is None or found.same_day is None or found.same_day >= 1:
        return Likeness()
    within = (found.same_livewell - found.same_day) / (1 - found.same_day)
    return Likeness(min(max(within, 0.0), MOST_ALIKE), len(events))
