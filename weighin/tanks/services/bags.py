"""Hand a boat's fish to the release tank, take that back, and let the waiting bags go as one batch."""

import uuid
from collections.abc import Collection, Mapping
from typing import Any

from django.utils import timezone
from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.records.domain.messages import Draft, Sender
from weighin.records.services.door import write
from weighin.rules.faults import Faults
from weighin.tanks.domain.faults import (
    BAG_GONE,
    BAG_WENT_BACK,
    BAGS_CHANGED,
    BAGS_OF_OTHER_DAY,
    BOAT_WITHOUT_SLIP,
    FISH_BACK_ALREADY,
    NO_FISH_TO_HAND_OVER,
)
from weighin.tanks.models import HandedBag, Release
from weighin.tanks.queries.bags import account_of
from weighin.tanks.services.releases import RELEASE


def hand_over(event: Event, day: int, boat: int, by: str) -> HandedBag:
    """Write that a boat's live fish are in the release tank, now. A second tap finds the first bag and adds nothing.

    Raises Faults when the event is closed, when the boat has no slip that counts, and when it has no live fish to go.
    """
    with writing():
        held = lock_open_event(event)
        found = next((one for one in account_of(held, day).boats if one.boat == boat), None)
        if found is None:
            raise Faults([BOAT_WITHOUT_SLIP.at("", boat=boat, day=day)])
        if found.bag is not None:
            return found.bag
        if found.slip.released is not None:
            raise Faults([FISH_BACK_ALREADY.at("", slip=found.slip.number, boat=boat)])
        if not found.to_release:
            raise Faults([NO_FISH_TO_HAND_OVER.at("", boat=boat)])
        bag = HandedBag.objects.create(
            event=held, entry=found.slip.entry, day=day, fish=found.to_release, handed=timezone.now(), handed_by=by
        )
        _note(
            held,
            "bag.handed",
            gettext("%(fish)s fish of boat %(boat)s handed to the release tank") % {"fish": bag.fish, "boat": boat},
            bag,
            by,
        )
    return bag


def take_back(event: Event, pk: int, by: str) -> HandedBag:
    """Take a bag that was handed over by mistake out of the tank again. Raises Faults once it went with a batch."""
    with writing():
        held = lock_open_event(event)
        bag = HandedBag.objects.filter(event=held, pk=pk).select_related("entry", "release").first()
        if bag is None:
            raise Faults([BAG_GONE.at("")])
        if bag.release is not None:
            raise Faults([BAG_WENT_BACK.at("", place=bag.release.place, bag=str(bag))])
        _note(
            held,
            "bag.taken_back",
            gettext("%(fish)s fish of boat %(boat)s not in the release tank after all")
            % {"fish": bag.fish, "boat": bag.entry.boat},
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
            raise Faults([BAGS_CHANGED.at("")])
        release = write(RELEASE, held.pk, Draft(written, key), Sender(by, asked=True)).kept()
        if any(bag.day != release.day for bag in bags):
            raise Faults([BAGS_OF_OTHER_DAY.at("day")])
        if before is None:
            HandedBag.objects.filter(pk__in=[bag.pk for bag in bags]).update(release=release)
            boats = ", ".join(str(bag.entry.boat) for bag in bags)
            log_history(
                by,
                "bag.let_go",
                gettext("Fish of boats %(boats)s back in the water at %(place)s")
                % {"boats": boats, "place": release.place},
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
