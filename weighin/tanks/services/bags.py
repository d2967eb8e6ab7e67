"""Hand a boat's fish to the release tank, take that back, and let the waiting bags go as one batch."""

import uuid
from collections.abc import Collection, Mapping

from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted
from weighin.roster.services.boat_records import BoatRecord
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Faults
from weighin.tanks.domain import faults, fields
from weighin.tanks.models import HandedBag, Release
from weighin.tanks.queries.bags import account_of
from weighin.tanks.services.releases import RELEASE


class BagRecord(BoatRecord[HandedBag]):
    """A boat's live fish in the release tank: one tap, and another takes it back while they are there."""

    model = HandedBag
    noun = gettext_lazy("bag")
    fields = fields.BAG
    key = ""
    numbered = False
    edited = True
    says_why = False
    gone_meanwhile = faults.BAG_GONE

    def rows(self) -> QuerySet[HandedBag]:
        return HandedBag.objects.select_related("entry", "release")

    def check(self, reader: Reader, old: HandedBag | None) -> None:
        boat, day = reader["boat"], reader["day"]
        boats = account_of(reader.context.event, day).boats if reader.sure("day", "boat") else ()
        found = next((one for one in boats if one.boat == boat), None)
        if found is None:
            reader.fault("", faults.BOAT_WITHOUT_SLIP, boat=boat, day=day)
        elif found.bag is None and found.slip.released is not None:
            reader.fault("", faults.FISH_BACK_ALREADY, slip=found.slip.number, boat=boat)
        elif found.bag is None and not found.to_release:
            reader.fault("", faults.NO_FISH_TO_HAND_OVER, boat=boat)
        else:
            reader.values["fish"] = found.to_release

    def unchanged(self, reader: Reader, context: EventContext) -> HandedBag | None:
        return self.rows_of(context).filter(entry__boat=reader["boat"], day=reader["day"]).first()

    def may_take_out(self, row: HandedBag) -> None:
        if row.release is not None:
            raise Faults([faults.BAG_WENT_BACK.at("", place=row.release.place, bag=str(row))])

    def history(self, row: HandedBag, old: HandedBag | None, done: str) -> Noted:
        said = {"fish": row.fish, "boat": row.entry.boat}
        if done == "taken_out":
            back = gettext("%(fish)s fish of boat %(boat)s not in the release tank after all")
            return Noted("bag.taken_back", back % said)
        return Noted("bag.handed", gettext("%(fish)s fish of boat %(boat)s into the release tank") % said)


HANDED_BAG = BagRecord()


def hand_over(event: Event, day: int, boat: int, by: str) -> HandedBag:
    """Write that a boat's live fish are in the release tank, now. A second tap finds the first bag and adds nothing.

    Raises Faults when the event is closed, when the boat has no slip that counts, and when it has no live fish to go.
    """
    texts = {"day": str(day), "boat": str(boat), "handed": timezone.now().isoformat(), "handed_by": by}
    return write(HANDED_BAG, event.pk, Draft(texts), Sender(by)).kept()


def take_back(event: Event, pk: int, by: str) -> HandedBag:
    """Take a bag that was handed over by mistake out of the tank again. Raises Faults once it went with a batch."""
    return write(HANDED_BAG, event.pk, Draft({}, replaces=pk, void=True), Sender(by)).kept()


def let_go(event: Event, pks: Collection[int], written: Mapping[str, str], by: str, key: uuid.UUID) -> Release:
    """Write a release of just these bags; ``written`` are the texts of its form. Sent twice, it is kept once.

    Raises Faults with field names, and when one of the bags is gone or went with another batch meanwhile.
    """
    with writing():
        context = EVENT.open(event.pk)
        before = Release.objects.filter(pk=key).first()
        bags = list(HANDED_BAG.rows_of(context).filter(pk__in=pks))
        if len(bags) < len(set(pks)) or any(bag.release_id not in (None, key) for bag in bags) or not bags:
            raise Faults([faults.BAGS_CHANGED.at("")])
        release = write(RELEASE, event.pk, Draft(written, key), Sender(by, asked=True)).kept()
        if any(bag.day != release.day for bag in bags):
            raise Faults([faults.BAGS_OF_OTHER_DAY.at("day")])
        if before is None:
            HandedBag.objects.filter(pk__in=[bag.pk for bag in bags]).update(release=release)
            boats = [bag.entry.boat for bag in bags]
            log_history(
                by,
                "bag.let_go",
                gettext("Fish of boats %(boats)s back in the water at %(place)s")
                % {"boats": ", ".join(map(str, boats)), "place": release.place},
                club_id=context.club_id,
                event_id=context.event_id,
                subject=str(release),
                details={"release": str(release.pk), "boats": boats},
            )
    return release
