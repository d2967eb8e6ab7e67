"""The database lets rows go that hang on a rehearsal, and nothing else; no event can be made into a rehearsal."""

from typing import Any

import pytest
import world
from django.apps import apps
from django.db import connection, transaction
from django.db.utils import DatabaseError, IntegrityError
from django.utils import timezone
from rehearsal.sent import in_process, rehearsed

from weighin.audit.database.triggers import append_only_tables, is_guarded, let_tables_be_made_anew, written_once
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.scales.models import Scale, ScaleCheck
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import record_slip

__all__ = ["in_process"]
pytestmark = pytest.mark.usefixtures("in_process")


@pytest.fixture
def event(db: None) -> Event:
    return world.event("Dawn pairs", 4)


def run(words: str, *asked: Any) -> None:
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(words, asked)


def refused(words: str, *asked: Any, because: str = "only ever added") -> None:
    with pytest.raises(DatabaseError, match=because):
        run(words, *asked)


def test_rows_of_a_rehearsal_may_go_and_those_of_its_event_not(event: Event) -> None:
    other = world.event("Another", 4)
    record_slip(other, world.slip(), "quill")
    made, _ = rehearsed(event)
    for table in ("slips_weighslip", "audit_historyentry"):
        refused(f"DELETE FROM {table} WHERE event_id = %s", other.pk)
        refused(f"DELETE FROM {table}")
        run(f"DELETE FROM {table} WHERE event_id = %s", made.event_id)
    assert WeighSlip.objects.filter(event=other).count() == 1
    assert HistoryEntry.objects.filter(event_id=event.pk).exists()
    refused("DELETE FROM audit_historyentry WHERE event_id IS NULL")


def test_rows_of_a_rehearsal_are_not_changed(event: Event) -> None:
    made, _ = rehearsed(event)
    refused("UPDATE slips_weighslip SET dead = 3 WHERE event_id = %s", made.event_id)
    refused("UPDATE slips_weighslip SET event_id = %s", event.pk)


def test_no_event_becomes_a_rehearsal_and_no_rehearsal_an_event(event: Event) -> None:
    other = world.event("Another", 4)
    record_slip(other, world.slip(), "quill")
    stays = "stays as it was written"
    refused("UPDATE events_event SET rehearsal_of_id = %s WHERE id = %s", event.pk, other.pk, because=stays)
    made, _ = rehearsed(event)
    refused("UPDATE events_event SET rehearsal_of_id = NULL WHERE id = %s", made.event_id, because=stays)
    run("UPDATE events_event SET note = 'x', rehearsal_of_id = %s WHERE id = %s", event.pk, made.event_id)
    refused("DELETE FROM slips_weighslip WHERE event_id = %s", other.pk)


def test_checks_of_a_scale_go_with_a_rehearsals_scale_and_a_scale_stays_where_it_is(event: Event) -> None:
    assert ("scales_scale", "event_id") in written_once()
    made, _ = rehearsed(event)
    scales = [Scale.objects.create(event=one, name="A", division="0.01", unit="lb") for one in (event, made.event)]
    for scale in scales:
        ScaleCheck.objects.create(scale=scale, moment="before", at=timezone.now(), test_weight="5", shown="5.00", unit="lb", division="0.01", tested_by="quill", recorded_by="quill")  # fmt: skip
    refused("DELETE FROM scales_scalecheck WHERE scale_id = %s", scales[0].pk)
    run("DELETE FROM scales_scalecheck WHERE scale_id = %s", scales[1].pk)
    assert ScaleCheck.objects.get().scale == scales[0]
    stays = "stays as it was written"
    refused("UPDATE scales_scale SET event_id = %s WHERE id = %s", made.event_id, scales[0].pk, because=stays)


def test_a_rehearsal_is_never_public(event: Event) -> None:
    made, _ = rehearsed(event)
    with pytest.raises(IntegrityError), transaction.atomic():
        Event.everyone.filter(pk=made.event_id).update(is_public=True)


def test_an_event_has_one_rehearsal(event: Event) -> None:
    made, _ = rehearsed(event)
    made.event.pk, made.event.slug, made.event.name = None, "again", "REHEARSAL again"
    with pytest.raises(IntegrityError), transaction.atomic():
        made.event.save(force_insert=True)


def test_every_table_is_guarded_after_migrate_and_made_anew_in_between(event: Event) -> None:
    assert all(is_guarded(connection, table) for table in append_only_tables())
    assert Entry.objects.filter(event=event).exists()
    audit, events = apps.get_app_config("audit"), apps.get_app_config("events")
    let_tables_be_made_anew(events, "default")
    assert is_guarded(connection, "slips_weighslip")
    let_tables_be_made_anew(audit, "default")
    assert is_guarded(connection, "slips_weighslip") == (connection.vendor == "postgresql")
    assert is_guarded(connection, "mortality_publishedonce")
