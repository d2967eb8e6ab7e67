"""Events and seasons for the mortality tests, brought in as their workbooks would be."""

from collections.abc import Sequence

import world

from weighin.clubs.models import Season
from weighin.events.models import Event

Catch = tuple[int, int] | tuple[int, int, int, int]  # fish, dead (, dead at release, kept)
CLUB, SEASON = "Reed Valley Crappie Club", "2026"


def fished(
    name: str,
    catches: Sequence[Catch],
    *,
    date: str = "2026-06-20",
    lake: str = "79 F",
    holding: Sequence[dict[str, str]] = (),
    rules: dict[str, str] | None = None,
    slips: Sequence[dict[str, str]] = (),
    notes: Sequence[dict[str, str]] = (),
    boats: int = 0,
    **keys: str,
) -> Event:
    """An event with one boat for each catch, in order; ``slips`` are further rows, ``boats`` further boats.

    ``notes`` are care notes, of day 1 unless they say otherwise.
    """
    said = {
        "club": CLUB,
        "season": SEASON,
        "water": "Tarn Mere",
        "date": date,
        "lake_temp": lake,
        "entry_fee": "",
        **keys,
    }
    rows = [_slip(number, *catch) for number, catch in enumerate(catches, start=1)]
    more = {"Fish care": [{"day": "1", **note} for note in notes], "Holding": list(holding)}
    return world.event(name, world.pairs(len(catches) + boats), [*rows, *slips], rules=rules, more=more, **said)


def season_of(*events: Event) -> Season:
    """The season that the events stand in."""
    found = Season.objects.select_related("club").get(pk=events[0].season_id)
    assert all(event.season_id == found.pk for event in events)
    return found


def pen(kind: str, held: int, dead: int, missing: int = 0, **more: str) -> dict[str, str]:
    """A holding pen."""
    counts = {"held": str(held), "dead": str(dead), "missing": str(missing)}
    return {"group": kind, "kind": kind, "hours": "72", "species": "white crappie", **counts, **more}


def _slip(boat: int, fish: int, dead: int, at_release: int = 0, kept: int = 0) -> dict[str, str]:
    slip = {
        "boat": str(boat), "day": "1", "fish": str(fish), "alive": str(fish - dead), "dead": str(dead),
        "dead_at_release": str(at_release), "kept": str(kept), "weighed": "15:10", "released": "15:20",
    }  # fmt: skip
    return slip | ({"gross": f"{1 + fish:.2f}"} if fish else {})
