"""Requests drawn from the site's own OpenAPI document, in the forms that it allows: no 5xx, and answers as it says.

The draws are the same each time; WEIGHIN_MACHINE_RUNS=500 tries so many others of each operation.
"""

import os
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
import world
from django.core.signals import request_finished, request_started
from django.db import close_old_connections
from hypothesis import HealthCheck, given, settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)
from stations.speaking import Speaker
from stations.speaking import message as slip

from weighin.public.pages.openapi import document
from weighin.standings.services import set_public
from weighin.wsgi import application

RUNS = int(os.environ.get("WEIGHIN_MACHINE_RUNS", "0"))
# An item that does not fit is refused by itself, in an answer of 200: so the contract
CHECKS = [not_a_server_error, status_code_conformance, content_type_conformance, response_schema_conformance]
OPERATIONS = [
    (path, method) for path, item in document()["paths"].items() for method in item if method in {"get", "post"}
]


@pytest.fixture
def table(db: None) -> Iterator[Speaker]:
    event = world.event()
    set_public(event, True, "quill")
    table = Speaker(event)
    table.one(slip())
    # A served request begins and ends with a look at its connection; here that is the one of the test's transaction
    both = (request_started, request_finished)
    for signal in both:
        signal.disconnect(close_old_connections)
    yield table
    for signal in both:
        signal.connect(close_old_connections)


@pytest.mark.parametrize(("path", "method"), OPERATIONS)
@pytest.mark.parametrize("who", ["station", "stranger"])
def test_what_is_drawn_from_the_document_is_answered_as_it_says(
    path: str, method: str, who: str, table: Speaker
) -> None:
    schema = schemathesis.openapi.from_dict(document())
    schema.app = application
    headers = {"Authorization": f"Bearer {table.token}"} if who == "station" else {}

    @settings(
        max_examples=RUNS or 10,
        derandomize=not RUNS,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(case=schema[path][method].as_strategy())
    def ask(case: Any) -> None:
        if "{slug}" in path:
            case.path_parameters["slug"] = table.event.slug
        case.headers.pop("Authorization", None)
        case.cookies = {}
        case.call_and_validate(headers=headers, checks=CHECKS)

    ask()
