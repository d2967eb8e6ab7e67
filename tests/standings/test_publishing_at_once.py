"""Two directors press at the same moment: one version, one posting, and one ruling come of it."""

import threading
from collections.abc import Callable
from typing import Any

import pytest
import world
from django.db import connection

from weighin.events.models import Event
from weighin.operations.services import publishing
from weighin.rules.faults import Faults
from weighin.standings.models import OfficialResult, Posting, Ruling
from weighin.standings.services.protests import hand_in, rule_on

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.database]
DIRECTORS = ("mara", "quill", "sole", "tern")


@pytest.fixture
def event() -> Event:
    return world.event("Open table", 2, [world.slip(boat=boat) for boat in "12"], handling="harvest")


def all_at_once(act: Callable[[str], Any]) -> list[Any]:
    """What the act gave to each director, all begun together; the codes of the faults where it was refused."""
    ready, found = threading.Barrier(len(DIRECTORS)), dict[str, Any]()

    def run(by: str) -> None:
        try:
            ready.wait()
            found[by] = act(by)
        except Faults as refused:
            found[by] = [fault.code for fault in refused.faults]
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(by,)) for by in DIRECTORS]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return list(found.values())


def test_directors_at_once_make_one_version(event: Event) -> None:
    found = all_at_once(lambda by: publishing.publish(event, by, "", {}).version)
    assert found.count(1) == 1 and found.count(["nothing_changed"]) == 3
    assert OfficialResult.objects.count() == 1


def test_directors_at_once_post_once(event: Event) -> None:
    found = all_at_once(lambda by: publishing.post(event, by).posted)
    assert len(set(found)) == 1 and Posting.objects.count() == 1, "the others hear of the first one's posting"


def test_a_protest_is_ruled_on_once(event: Event) -> None:
    hand_in(event, {"who": "Team 2", "matter": "m", "could": "lower", "boat": "1"}, "mara")
    said = {"outcome": "denied", "words": "w", "ruled_by": "Committee"}
    found = all_at_once(lambda by: rule_on(event, 1, said, by).number)
    assert found.count(1) == 1 and found.count(["ruled_already"]) == 3 and Ruling.objects.count() == 1
