"""Hand a boat's fish to the release tank, take that back, and let the waiting bags go as one batch."""

import uuid
from collections.abc import Collection, Mapping
from typing import Any

from django.utils import timezone

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.events.services.rows import add
from weighin.rules.faults import Fault, Faults
from weighin.tanks.models import HandedBag, Release
from weighin.tanks.parsing.releases import read_release
from weighin.tanks.queries.bags import account_of
from weighin.tanks.services.books import RELEASES


def hand_over(event: Event, day: int, boat: int, by: str) -> HandedBag:
    """Write that a boat's live fish are in the release tank, now. A second tap finds the first bag and adds nothing.

    Raises Faults when the event is closed, when the boat has no slip that counts, and when it has no live fish to go.
    """
    with writing():
        held = lock_open_event(event)
        found = next((one for one in account_of(held, day).boats if one.boat == boat), None)
        if found is None:
            raise Faults([Fault("", f"boat {boat} has no slip that counts on day {day}: weigh it first")])
        if found.bag is not None:
            return found.bag
        if found.slip.released is not None:
            raise Faults(
                [Fault("", f"slip {found.slip.number} says that boat {boat}’s fish are back in the water already")]
            )
        if not found.to_release:
            raise Faults([Fault("", f"boat {boat} has no live fish that go back: none can be handed over")])
        bag = HandedBag.objects.create(
            event=held, entry=found.slip.entry, day=day, fish=found.to_release, handed=timezone.now(), handed_by=by
        )
        _note(held, "bag.handed", f"{bag.fish} fish of boat {boat} handed to the release tank", bag, by)
    return bag


def take_back(event: Event, pk: int, by: str) -> HandedBag:
    """Take a bag that was handed over by mistake out of the tank again. Raises Faults once it went with a batch."""
    with writing():
        held = lock_open_event(event)
        bag = HandedBag.objects.filter(event=held, pk=pk).select_related("entry", "release").first()
        if bag is None:
            raise Faults([Fault("", "that bag was taken back already")])
        if bag.release is not None:
            raise Faults(
                [Fault("", f"the {bag} went back with the batch at {bag.release.place}: take that release out first")]
            )
        _note(
            held,
            "bag.taken_back",
            f"{bag.fish} fish of boat {bag.entry.boat} not in the release tank after all",
            bag,
            by,
        )
        bag.delete()
    return bag


def let_go(event: Event, pks: Collection[int], written: Mapping[str, str], by: str, key: uuid.UUID) -> Release:
    """Write a release of just these bags; ``written`` are the texts of its form. Sent twice, it is kept once.

    Raises Faults with field names, and when one of the bags is gone or went with another batch meanwhile.
    """
    with writing():
        held = lock_open_event(event)
        before = Release.objects.filter(pk=key).first()
        bags = list(HandedBag.objects.filter(event=held, pk__in=pks).select_related("entry", "release"))
        if len(bags) < len(set(pks)) or any(bag.release_id not in (None, key) for bag in bags) or not bags:
            raise Faults([Fault("", "the bags in the tank changed meanwhile: go back and choose them again")])
        release = add(RELEASES, held, lambda now: read_release(written, care_context_of(now)), by, key)
        if any(bag.day != release.day for bag in bags):
            raise Faults([Fault("day", "these bags are of another day: let each day’s fish go by themselves")])
        if before is None:
            HandedBag.objects.filter(pk__in=[bag.pk for bag in bags]).update(release=release)
            boats = ", ".join(str(bag.entry.boat) for bag in bags)
            log_history(
                by,
                "bag.let_go",
                f"Fish of boats {boats} back in the water at {release.place}",
                club_id=held.season.club_id,
                event_id=held.pk,
                subject=str(release),
                details={"release": str(release.pk), "boats": [bag.entry.boat for bag in bags]},
            )
    return release


def _note(event: Event, act: str, sentence: str, bag: HandedBag, by: str) -> None:
    raise_revision(event)
    details: dict[str, Any] = {"fish": bag.fish, "handed": bag.handed.isoformat()}
    log_history(by, act, sentence, club_id=event.season.club_id, event_id=event.pk, subject=str(bag), details=details)
