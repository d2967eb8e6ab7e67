"""Rehearsals whose tablets speak to the site within the test's own transaction."""

import json
from typing import Any, Self

import pytest
from django.test import Client

from weighin.events.models import Event
from weighin.rehearsal.models import Rehearsal
from weighin.rehearsal.services import running
from weighin.rehearsal.services.copying import make_rehearsal
from weighin.rehearsal.services.loopback import NoAnswer

FAST = 1_000_000.0


class NoServer:
    """In the place of the rehearsal's own server."""

    def __enter__(self) -> int:
        return 0

    def __exit__(self, *about: object) -> None:
        return None


class Tablet:
    """A tablet that asks Django directly, with its token."""

    def __init__(self, port: int, slug: str, token: str) -> None:
        self._client, self._slug, self._token = Client(enforce_csrf_checks=True), slug, token

    def post(self, address: str, body: dict[str, Any]) -> dict[str, Any]:
        answer = self._client.post(
            f"/api/events/{self._slug}/{address}",
            json.dumps(body),
            content_type="application/json",
            headers={"Authorization": f"Bearer {self._token}"},
        )
        if answer.status_code != 200:
            raise NoAnswer(str(answer.status_code))
        found: dict[str, Any] = answer.json()
        return found

    def close(self: Self) -> None:
        return None


@pytest.fixture
def in_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(running, "Loopback", NoServer)
    monkeypatch.setattr(running, "Tablet", Tablet)


def rehearsed(event: Event, **asked: Any) -> tuple[Rehearsal, dict[str, Any]]:
    """The rehearsal of an event after all its boats came in, with its report."""
    made = make_rehearsal(event, "quill", **{"speed": FAST, **asked})
    report = running.run_rehearsal(made)
    assert report is not None
    return made, report


def rows(*, without: tuple[str, ...] = ()) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table of ours, by model."""
    from django.apps import apps

    return {
        model._meta.label: sorted(
            model._base_manager.values_list(*(field.attname for field in model._meta.concrete_fields)), key=repr
        )
        for model in apps.get_models()
        if model.__module__.startswith("weighin.") and model._meta.label not in without
    }
