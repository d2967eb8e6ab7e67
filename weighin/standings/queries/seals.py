"""Official results, sealed for the history."""

from datetime import UTC

from weighin.audit.domain.lines import seal
from weighin.events.queries.seals import Seals
from weighin.standings.models import OfficialResult

RESULT = "result "
SEALED = (
    "version", "published_by", "reason", "ledger_length", "ledger_head", "stage", "overruled", "document",
)  # fmt: skip


def result_seals(event_id: int, version: int | None = None) -> Seals:
    """The seal of each official version as it is kept now, or of one."""
    found = OfficialResult.objects.filter(event=event_id)
    if version is not None:
        found = found.filter(version=version)
    return {
        f"{RESULT}{result.version}": seal(
            {name: getattr(result, name) for name in SEALED}
            | ({} if result.side_pots is None else {"side_pots": result.side_pots})
            | {"published_at": result.published_at.astimezone(UTC).isoformat()}
        )
        for result in found
    }
