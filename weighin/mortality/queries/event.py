"""Release mortality of an event: counts, rates with their denominators, the interval, and delayed deaths."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from weighin.events.models import Event
from weighin.holding.domain.study import HoldingStudy, holding_study
from weighin.mortality.domain.words import rate_said
from weighin.mortality.queries.catches import Catch, event_catches, livewells
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import current_slips, doubled
from weighin.survival.clusters import clustered
from weighin.survival.delayed import total


@dataclass(frozen=True)
class Mortality:
    """An event's release mortality. Counts are fish; rates are shares from 0 to 1, None where nothing can be said.

    ``initial`` = dead / presented, with ``low`` and ``high`` for whole livewells dying together; ``of_release`` =
    dead / (presented - kept); ``removed`` = (dead + kept) / presented. ``dead`` counts those at the table and those at
    release, by the slips and the release record. ``waiting`` boats and days have two slips, of which neither counts.
    ``delayed`` comes from the event's own holding study only.
    """

    presented: int
    dead: int
    kept: int
    waiting: int
    initial: float | None
    low: float | None
    high: float | None
    design_effect: float | None
    clusters: int
    of_release: float | None
    removed: float | None
    delayed: float | None
    delayed_basis: str | None
    total: float | None
    dead_at_table: int = 0
    dead_at_release: int = 0

    @property
    def said(self) -> str:
        """The finding with its range in one sentence without its full stop; blank without fish."""
        if self.initial is None or self.low is None or self.high is None:
            return ""
        return rate_said(self.dead, self.presented, self.low, self.high)


def event_mortality(
    event: Event, current: Iterable[WeighSlip] | None = None, as_of: datetime | None = None
) -> Mortality:
    """The event's mortality from its ``current`` slips, lost days and short fish included; those of doubled days wait.

    With ``as_of`` the current slips are those of then, and so is the release record.
    """
    found = current_slips(event, as_of) if current is None else list(current)
    waiting = doubled(found)
    counting = [slip for slip in found if (slip.entry.boat, slip.day) not in waiting]
    return mortality_of(event_catches(event, counting, as_of), holding_study(event.holding_pens.all()), len(waiting))


def mortality_of(catches: Sequence[Catch], study: HoldingStudy | None, waiting: int = 0) -> Mortality:
    """Mortality from the catches that count and the event's holding study."""
    wells = livewells(catches)
    presented = sum(well.fish for well in wells)
    dead = round(sum(well.dead for well in wells))
    kept = sum(catch.kept for catch in catches)
    rate = clustered([well.dead for well in wells], [well.fish for well in wells]) if presented else None
    initial = dead / presented if presented else None
    delayed = study.delayed.rate if study and study.delayed else None
    return Mortality(
        presented=presented,
        dead=dead,
        kept=kept,
        waiting=waiting,
        initial=initial,
        low=rate.low if rate else None,
        high=rate.high if rate else None,
        design_effect=rate.design_effect if rate else None,
        clusters=len(wells),
        of_release=dead / (presented - kept) if presented > kept else None,
        removed=(dead + kept) / presented if presented else None,
        delayed=delayed,
        delayed_basis=study.basis if study else None,
        total=total(initial, max(0.0, delayed)) if initial is not None and delayed is not None else None,
        dead_at_table=sum(catch.dead for catch in catches),
        dead_at_release=dead - sum(catch.dead for catch in catches),
    )


def mortality_part(found: Mortality) -> dict[str, Any]:
    """Mortality as plain JSON values, in the words of the project's export contract."""
    return {
        "presented": found.presented,
        "dead": found.dead,
        "kept": found.kept,
        "waiting": found.waiting,
        "initial": found.initial,
        "low": found.low,
        "high": found.high,
        "design_effect": found.design_effect,
        "clusters": found.clusters,
        "of_release": found.of_release,
        "removed": found.removed,
        "delayed": found.delayed,
        "delayed_basis": found.delayed_basis,
        "total": found.total,
    }
