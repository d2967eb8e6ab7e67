"""Begin what is older than its rows: chains of histories, which take what stands then as it is, and payments."""

from typing import Any

from django.db import connections
from django.db.migrations.executor import MigrationExecutor
from django.utils.translation import gettext

from weighin.audit.domain.lines import EARLIER, sealed_line
from weighin.audit.models import HistoryEntry
from weighin.audit.queries import chained_lines
from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.queries.seals import Seals, event_seals
from weighin.registration.services.payments import rows_of_earlier_teams
from weighin.roster.queries import roster_seals
from weighin.slips.queries.ledger import slips_seal
from weighin.standings.queries.seals import result_seals


def chain_after_migrate(sender: object, using: str, **kwargs: Any) -> None:
    """Signal handler of post_migrate: begin the chains that have not begun, once the tables are this version's."""
    here = connections[using]
    table = HistoryEntry._meta.db_table
    if using != "default" or table not in here.introspection.table_names():
        return
    with here.cursor() as cursor:
        cursor.execute(f"SELECT 1 FROM {here.ops.quote_name(table)} LIMIT 1")  # noqa: S608 a name of our own
        if cursor.fetchone() is None:
            return
    executor = MigrationExecutor(here)
    if not executor.migration_plan(executor.loader.graph.leaf_nodes()):
        chain_histories()
        rows_of_earlier_teams()


def chain_histories() -> None:
    """Give every history that has lines and no chain its first chained line."""
    with writing():
        holders = HistoryEntry.objects.order_by().values_list("club_id", "event_id")
        begun = {_holder(*one) for one in holders.filter(position__isnull=False).distinct()}
        for club, event in {_holder(*one) for one in holders.filter(position__isnull=True).distinct()} - begun:
            _begin(club, event)


def _holder(club: int | None, event: int | None) -> tuple[int | None, int | None]:
    return (None if event else club), event


def _begin(club_id: int | None, event_id: int | None) -> None:
    lines = chained_lines(club_id, event_id)
    bound: Seals = {f"{EARLIER}{line.pk}": sealed_line(line) for line in lines}
    event = Event.everyone.filter(pk=event_id).first() if event_id else None
    if event is not None:
        bound |= event_seals(event.pk) | roster_seals(event.pk) | result_seals(event.pk) | slips_seal(event)
    log_history(
        gettext("site"),
        "history.chained",
        gettext("The history is proven from here on; what stood before, %(n)s lines of it, is taken as it is")
        % {"n": len(lines)},
        club_id=lines[-1].club_id,
        event_id=event_id,
        bound=bound,
    )
