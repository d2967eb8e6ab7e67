"""An event whose scales are open: four boats, nothing weighed yet, and slips to write at its table."""

from typing import Any

import world

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.services import slips as services

# The worked example of the scoring contract: common practice, no source
EXAMPLE_RULES = {
    "bag_tare": "0.32", "dead_fish_penalty": "0.25, 0.50", "short_fish": "lose_largest", "fish_limit": "7",
}  # fmt: skip
EXAMPLE = {
    "day": "1", "boat": "1", "fish": "7", "alive": "5", "dead": "2", "short": "1", "gross": "9.47",
    "largest_weights": "1.71, 1.66", "checked_in": "15:02:10", "weighed": "15:10", "official": "R. Quill",
}  # fmt: skip


def record(event: Event, by: str = "quill", **values: str) -> WeighSlip:
    """Keep a slip."""
    return services.record_slip(event, world.slip(**values), by)


def posted(**values: Any) -> dict[str, Any]:
    """What the slip form sends."""
    return {"day": "1", "boat": "1", "alive": "7", "dead": "0", "gross": "8.50", "official": "R. Quill", **values}
