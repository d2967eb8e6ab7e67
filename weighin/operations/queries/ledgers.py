"""Whether an event's ledger of slips holds, and whether its official results were made from it."""

from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.standings.models import OfficialResult


@dataclass(frozen=True)
class Ledger:
    """The links of an event's slips by position (1, 2, ...), and what does not fit, in words."""

    links: dict[int, str]
    faults: tuple[str, ...]

    @property
    def head(self) -> str:
        """The last link; empty without a slip."""
        return self.links[max(self.links)] if self.links else ""


def ledger_of(event: Event) -> Ledger:
    """Walk the hash chain of the event's slips and hold its official results against it."""
    slips = list(WeighSlip.objects.filter(event=event).select_related("entry").order_by("position"))
    links = {slip.position: slip.link for slip in slips}
    faults = breaks(slips)
    for version, length, head in (
        OfficialResult.objects.filter(event=event)
        .order_by("version")
        .values_list("version", "ledger_length", "ledger_head")
    ):
        if length and links.get(length) != head:
            faults.append(
                gettext("official result %(version)s was made from other slips than the ledger now holds")
                % {"version": version}
            )
    return Ledger(links, tuple(faults))
