"""Rule sheets to start from. Their values are common practice of the trade, without a published source; each is read by the
rule sheet's own reader, and every one is a club's to change.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from weighin.rules import rulebook
from weighin.rules.faults import gettext_noop
from weighin.rules.language import gettext


@dataclass(frozen=True)
class StartingSheet:
    """A sheet by the keys that differ from the defaults; ``pounds`` and ``kilograms`` hold the weights among them."""

    slug: str
    _name: str
    _about: str
    changes: Mapping[str, str] = field(default_factory=dict)
    pounds: Mapping[str, str] = field(default_factory=dict)
    kilograms: Mapping[str, str] = field(default_factory=dict)

    @property
    def name(self) -> str:
        return gettext(self._name)

    @property
    def about(self) -> str:
        return gettext(self._about)

    def written(self, unit: str) -> dict[str, str]:
        """Every key as text in the unit (``lb``, ``lb-oz`` or ``kg``)."""
        if unit == "kg":
            return rulebook.read({**self.changes, **self.kilograms}, "kg").written()
        return replace(rulebook.read({**self.changes, **self.pounds}, "lb"), unit=unit).written()


STARTING: tuple[StartingSheet, ...] = (
    StartingSheet(
        "team-crappie",
        gettext_noop("Team crappie"),
        gettext_noop("Two anglers, seven crappie, a quarter pound for a dead fish, a pound for a minute late."),
    ),
    StartingSheet(
        "couples",
        gettext_noop("Couples"),
        gettext_noop(
            "Easier on newcomers: the first dead fish is free, half a pound for a minute late, the largest comes off over the limit, fifty points for first."
        ),
        {"over_limit": "remove_largest", "points_first": "50", "ties": "big_fish, fish_count, share"},
        {"dead_fish_penalty": "0, 0.25", "late_penalty_per_minute": "0.5"},
        {"dead_fish_penalty": "0, 0.1", "late_penalty_per_minute": "0.25"},
    ),
    StartingSheet(
        "bass-by-five",
        gettext_noop("Bass by five"),
        gettext_noop(
            "Five black bass, half a pound for a dead fish. Write the minimum length that your water asks for."
        ),
        {"species": "black bass", "fish_limit": "5"},
        {"dead_fish_penalty": "0.5"},
        {"dead_fish_penalty": "0.25"},
    ),
    StartingSheet(
        "immediate-release",
        gettext_noop("Immediate release"),
        gettext_noop(
            "Fish are measured and let go at once, one on board at a time; a dead fish is not weighed. Choose that handling in the event too, and say in writing how a length becomes a weight."
        ),
        # The lake is at 32 °F or warmer wherever a boat floats: at every temperature
        {"dead_fish": "not_weighed", "boat_limit": "1", "measured_lengths_above": "32", "deep_fish_kept_ft": "25"},
    ),
)
BY_SLUG = {one.slug: one for one in STARTING}
