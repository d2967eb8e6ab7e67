"""Slips are only ever added: the model, the queryset and the database each refuse to change or delete one."""

import pytest
import world
from django.db import connection, transaction
from django.db.utils import DatabaseError
from slips.table import record

from weighin.audit.database import triggers
from weighin.audit.domain.chain import link
from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks, content
from weighin.slips.queries.slips import ledger_head

TABLE = WeighSlip._meta.db_table


def ledger(event: Event) -> list[WeighSlip]:
    return list(WeighSlip.objects.filter(event=event).select_related("entry").order_by("position"))


def test_a_slip_is_not_saved_again(event: Event) -> None:
    slip = record(event)
    slip.dead = 3
    with pytest.raises(AppendOnlyError):
        slip.save()
    with pytest.raises(AppendOnlyError):
        WeighSlip.objects.get(pk=slip.pk).save()
    with pytest.raises(AppendOnlyError):
        slip.delete()


def test_the_queryset_changes_and_deletes_nothing(event: Event) -> None:
    slip = record(event)
    for refused in (
        lambda: WeighSlip.objects.filter(pk=slip.pk).update(dead=3),
        lambda: WeighSlip.objects.all().delete(),
        lambda: event.slips.all().delete(),
        lambda: WeighSlip.objects.bulk_update([slip], ["dead"]),
        lambda: WeighSlip.objects.update_or_create(pk=slip.pk, defaults={"dead": 3}),
    ):
        with pytest.raises(AppendOnlyError):
            refused()
    assert WeighSlip.objects.get(pk=slip.pk).dead == 0


@pytest.mark.parametrize("words", [f"UPDATE {TABLE} SET dead = 3", f"DELETE FROM {TABLE}"])
def test_the_database_itself_refuses(event: Event, words: str) -> None:
    record(event)
    with pytest.raises(DatabaseError, match="only ever added"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(words)
    assert [slip.dead for slip in ledger(event)] == [0]


def test_an_upsert_is_refused_too(event: Event) -> None:
    slip = record(event)
    twin = WeighSlip.objects.get(pk=slip.pk)
    twin.dead = 3
    with pytest.raises(DatabaseError, match="only ever added"), transaction.atomic():
        WeighSlip.objects.bulk_create([twin], update_conflicts=True, update_fields=["dead"], unique_fields=["id"])


def test_entries_and_events_with_slips_stay(event: Event) -> None:
    record(event)
    for row in (Entry.objects.get(event=event, boat=1), event):
        with pytest.raises(Exception, match="protected|only ever added"):
            row.delete()


def test_the_history_is_locked_as_well(event: Event) -> None:
    record(event)
    with pytest.raises(AppendOnlyError):
        HistoryEntry.objects.all().delete()
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(f"UPDATE {HistoryEntry._meta.db_table} SET actor = 'nobody'")


def test_an_untouched_ledger_has_no_breaks(event: Event) -> None:
    slips = [record(event, boat=str(boat)) for boat in (1, 2, 3)]
    assert [slip.position for slip in slips] == [1, 2, 3] and breaks(ledger(event)) == []
    assert ledger_head(event) == (3, slips[-1].link)


def test_each_event_has_its_own_chain(event: Event) -> None:
    record(event)
    other = record(world.event("Second table"))
    assert other.position == 1 and ledger_head(other.event) == (1, other.link)


@pytest.mark.parametrize(
    "change", ["dead = 1", "gross = '9.50'", "official = 'X'", "reason = 'x'", "recorded_by = 'x'", "number = 77"]
)
def test_a_changed_slip_is_named(event: Event, change: str) -> None:
    for boat in (1, 2, 3):
        record(event, boat=str(boat))
    alter(f"UPDATE {TABLE} SET {change} WHERE position = 2")
    (found,) = breaks(ledger(event))
    assert "(position 2) does not fit" in found


def test_a_link_made_to_fit_breaks_the_next(event: Event) -> None:
    for boat in (1, 2, 3):
        record(event, boat=str(boat))
    slips = ledger(event)
    slips[1].dead = 1
    forged = link(slips[0].link, content(slips[1]))
    alter(f"UPDATE {TABLE} SET dead = 1, link = '{forged}' WHERE position = 2")
    (found,) = breaks(ledger(event))
    assert "(position 3) does not fit" in found


def test_a_slip_of_another_boat_is_named(event: Event) -> None:
    slip = record(event)
    elsewhere = Entry.objects.get(event=event, boat=4)
    alter(f"UPDATE {TABLE} SET entry_id = {elsewhere.pk}")
    assert breaks(ledger(event)) == [f"slip {slip.number} (position 1) does not fit: it, or one before it, was altered"]


def test_a_missing_slip_is_named(event: Event) -> None:
    for boat in (1, 2, 3):
        record(event, boat=str(boat))
    alter(f"DELETE FROM {TABLE} WHERE position = 2")
    found = breaks(ledger(event))
    assert found[0] == "position 2 is missing: slip 3 stands at 3" and "slip 3 (position 3)" in found[1]


def alter(words: str) -> None:
    """What somebody could do who owns the database."""
    triggers.remove(connection, TABLE)
    with connection.cursor() as cursor:
        cursor.execute(words)
    triggers.install(connection, TABLE)
