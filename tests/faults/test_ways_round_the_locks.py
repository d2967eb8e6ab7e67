"""Ways round the locks of rows that are only added: other managers, other statements, the rows they hang on."""

from collections.abc import Callable
from typing import Any

import pytest
from django.apps import apps
from django.db import DatabaseError, connection, models, transaction
from django.db.models import F, ProtectedError
from django.db.transaction import atomic
from world import plain

from weighin.audit.models import AppendOnly, AppendOnlyError
from weighin.slips.models import WeighSlip
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db
REFUSALS = (AppendOnlyError, DatabaseError, ProtectedError)


def kept() -> dict[str, list[Any]]:
    """Every row that is only ever added."""
    tables = [model for model in apps.get_models() if issubclass(model, AppendOnly)]
    return {model._meta.label: list(model._base_manager.order_by("pk").values_list()) for model in tables}


def altered(slip: WeighSlip) -> WeighSlip:
    values = {field.attname: getattr(slip, field.attname) for field in WeighSlip._meta.fields}
    return WeighSlip(**{**values, "gross": "99"})


WAYS: dict[str, Callable[[WeighSlip], Any]] = {
    "upsert": lambda s: WeighSlip.objects.bulk_create(
        [altered(s)], update_conflicts=True, update_fields=["gross"], unique_fields=["id"]
    ),
    "save as new": lambda s: altered(s).save(),
    "another save": lambda s: models.Model.save_base(altered(s), raw=True, force_update=True),
    "another delete": lambda s: models.Model.delete(s),
    "the base manager": lambda s: WeighSlip._base_manager.filter(pk=s.pk).update(gross="99"),
    "the base manager's delete": lambda s: WeighSlip._base_manager.filter(pk=s.pk).delete(),
    "a figure of itself": lambda s: WeighSlip.objects.select_for_update().update(position=F("position") + 1),
    "a raw delete": lambda s: WeighSlip.objects.filter(pk=s.pk)._raw_delete("default"),
    "the boat's slips": lambda s: s.entry.slips.update(gross="99"),
    "another boat": lambda s: s.event.entries.exclude(pk=s.entry_id)[0].slips.add(s),
    "the boat": lambda s: s.entry.delete(),
    "the event": lambda s: type(s.event).objects.filter(pk=s.event_id).delete(),
    "the season": lambda s: s.event.season.delete(),
    "the club": lambda s: s.event.club.delete(),
}


@pytest.mark.parametrize("way", WAYS)
def test_a_way_round_changes_nothing(way: str) -> None:
    publish_result(plain(), "test")
    before, slip = kept(), WeighSlip.objects.select_related("event__season__club", "entry").get(number=1)
    with pytest.raises(REFUSALS), atomic():
        WAYS[way](slip)
    assert kept() == before


def statements() -> list[str]:
    columns = [field.column for field in WeighSlip._meta.fields]
    worse = ["'99'" if column == "gross" else column for column in columns]
    if connection.vendor == "sqlite":
        replace = f"REPLACE INTO slips_weighslip ({', '.join(columns)}) SELECT {', '.join(worse)} FROM slips_weighslip"
        return [
            replace,
            "UPDATE OR REPLACE slips_weighslip SET gross = '99'",
            "REPLACE INTO audit_historyentry SELECT * FROM audit_historyentry",
        ]
    return ["TRUNCATE slips_weighslip CASCADE", "TRUNCATE audit_historyentry", "TRUNCATE clubs_club CASCADE"]


@pytest.mark.django_db(transaction=True)
def test_statements_that_ask_no_row_trigger_change_nothing() -> None:
    publish_result(plain(), "test")
    before = kept()
    for statement in statements():
        with pytest.raises(DatabaseError, match="only ever added"), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(statement)
    assert kept() == before
