"""Let the boats of a rehearsal come in: through the addresses that tablets use, at the speed asked, and count what was lost."""

import logging
import threading
import time
from collections.abc import Sequence
from contextlib import ExitStack, suppress
from typing import Any

from django.db import connection
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.services import writing
from weighin.events.domain import weighed
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.line.domain.day import Way
from weighin.rehearsal.domain.catches import catches
from weighin.rehearsal.domain.deliveries import ADDRESSES, CANS, CHECK_INS, NOTES, SLIPS, Delivery, deliveries
from weighin.rehearsal.domain.faults import KEPT_TWICE, NO_ANSWER, NOT_TAKEN
from weighin.rehearsal.domain.line import ways
from weighin.rehearsal.domain.report import report_of
from weighin.rehearsal.models import Rehearsal
from weighin.rehearsal.queries.checking import broken, lost, otherwise
from weighin.rehearsal.queries.plan import hour_of, mean_weight, moment_of
from weighin.rehearsal.services.loopback import Loopback, NoAnswer, Tablet
from weighin.rules.faults import Said
from weighin.stations.services.stations import make_station

LOG = logging.getLogger(__name__)
LOOK_SECONDS = 1.0
WORDS = {
    CHECK_INS: gettext_lazy("the check-in"),
    SLIPS: gettext_lazy("the slip"),
    NOTES: gettext_lazy("the care note"),
}
TAKEN = "kept", "second", "already"


class _Ended(Exception):
    """Somebody stopped the rehearsal, or wiped it, or the event itself has begun."""


class _Run:
    """One rehearsal while its boats come in: what was acknowledged so far, by kind and id, and what went wrong."""

    def __init__(self, rehearsal: Rehearsal):
        self.rehearsal, self.copy = rehearsal, rehearsal.event
        self.hour = hour_of(rehearsal)
        self.ways = ways(self.hour, rehearsal.seed)
        calendar = calendar_of(self.copy)
        fish = catches(rules_of(self.copy), mean_weight(self.copy), list(self.hour.due), rehearsal.seed)
        self.deliveries = deliveries(
            self.ways, fish, rehearsal.day, self.hour.scales, lambda minute: moment_of(calendar, rehearsal.day, minute)
        )
        self.taken: dict[str, dict[str, Any]] = {kind: {} for kind in ADDRESSES}
        self.wrong: list[Said] = []
        self.looked = float("-inf")

    def send(self, tablets: dict[str, Tablet]) -> None:
        """Post everything at its minute. Raises _Ended."""
        begun, first = time.monotonic(), self.deliveries[0].minute
        for place, delivery in enumerate(self.deliveries):
            at = begun + (delivery.minute - first) * 60 / self.rehearsal.speed
            while True:
                self._look(place)
                wait = at - time.monotonic()
                if wait <= 0:
                    break
                time.sleep(min(wait, LOOK_SECONDS))
            self._post(delivery, tablets[delivery.tablet])
        self._look(len(self.deliveries), now=True)

    def _post(self, delivery: Delivery, tablet: Tablet) -> None:
        what, taken = str(WORDS[delivery.kind]), self.taken[delivery.kind]
        body = {delivery.kind: list(delivery.items), "sent": timezone.now().isoformat()}
        try:
            answers = tablet.post(ADDRESSES[delivery.kind], body)[delivery.kind]
        except NoAnswer as error:
            self._look(0, now=True)
            self.wrong += [NO_ANSWER.says(what=what, boat=item["boat"], error=str(error)) for item in delivery.items]
            return
        for item, answer in zip(delivery.items, answers, strict=True):
            state, before = answer["state"], item["id"] in taken
            if state not in TAKEN:
                said = "; ".join(f"{fault['field']}: {fault['message']}" for fault in answer["faults"]) or state
                self.wrong.append(NOT_TAKEN.says(what=what, boat=item["boat"], answer=said))
            elif before != (state == "already"):
                self.wrong.append(KEPT_TWICE.says(what=what, boat=item["boat"], answer=state))
            if state in TAKEN:
                taken[item["id"]] = item

    def _look(self, sent: int, now: bool = False) -> None:
        """Say how far it is, and see whether it is to go on. Raises _Ended."""
        if not now and time.monotonic() - self.looked < LOOK_SECONDS:
            return
        self.looked = time.monotonic()
        rows = Rehearsal.objects.filter(pk=self.rehearsal.pk)
        with writing():
            if not rows.update(seen_at=timezone.now(), sent=sent, to_send=len(self.deliveries)):
                raise _Ended
        if rows.filter(stop_asked=True).exists() or weighed.first(_original(self.copy)) is not None:
            raise _Ended

    def report(self) -> dict[str, Any]:
        """What came of it; of the boats whose slip was acknowledged."""
        wrong = [
            *self.wrong,
            *lost(self.copy, self.taken, {kind: str(words) for kind, words in WORDS.items()}),
            *broken(self.copy, _original(self.copy)),
            *otherwise(self.copy, self.taken),
        ]
        slips = self.taken[SLIPS]
        boats = {slip["boat"] for slip in slips.values()}
        done: Sequence[Way] = [way for way in self.ways if way.boat in boats]
        return report_of(done, len(slips), self.hour.limit_min, [said.shown() for said in wrong])


def run_rehearsal(rehearsal: Rehearsal) -> dict[str, Any] | None:
    """Let the boats come in until all are weighed, it is stopped, or the event itself has begun; the report is kept.

    None when it was wiped meanwhile.
    """
    try:
        return _run(rehearsal)
    except Exception:
        if Rehearsal.objects.filter(pk=rehearsal.pk).exists():
            raise
        return None


def _run(rehearsal: Rehearsal) -> dict[str, Any]:
    one = _Run(rehearsal)
    with ExitStack() as until_the_end:
        port = until_the_end.enter_context(Loopback())
        tablets = {}
        for delivery in one.deliveries:
            if delivery.tablet not in tablets:
                _, token = make_station(one.copy, delivery.tablet, [CANS[delivery.kind]], rehearsal.begun_by)
                tablets[delivery.tablet] = Tablet(port, one.copy.slug, token)
                until_the_end.callback(tablets[delivery.tablet].close)
        with suppress(_Ended):
            one.send(tablets)
    report = one.report()
    with writing():
        if not Rehearsal.objects.filter(pk=rehearsal.pk).update(report=report, ended_at=timezone.now()):
            raise _Ended
    return report


def begin_in_background(rehearsal: Rehearsal) -> threading.Thread:
    """As ``run_rehearsal``, beside what this process does."""

    def go() -> None:
        try:
            run_rehearsal(rehearsal)
        except Exception:
            # Its page says that nothing was heard of it
            LOG.exception("The rehearsal of %s broke off.", rehearsal.event.slug)
        finally:
            connection.close()

    thread = threading.Thread(target=go, name="rehearsal", daemon=True)
    thread.start()
    return thread


def stop_rehearsal(event: Event) -> None:
    """Let no more boats come in; what is written stays until the rehearsal is wiped."""
    with writing():
        Rehearsal.objects.filter(event__rehearsal_of=event, ended_at=None).update(stop_asked=True)


def _original(copy: Event) -> Event:
    return Event.everyone.select_related("season").get(rehearsal=copy)
