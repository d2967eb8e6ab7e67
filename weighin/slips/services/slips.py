"""Weigh slips through the door: from a tablet, from a person at the table, from a workbook."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID, uuid4

from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.database.statements import run
from weighin.audit.services import writing
from weighin.checkin.domain import care_times
from weighin.events.models import Event
from weighin.records.domain.faults import NO_REASON, REPLACED_MEANWHILE
from weighin.records.domain.messages import RULES, Draft, Outcome, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import require_current, write
from weighin.records.services.record_type import Noted
from weighin.roster.services.boat_records import BoatRecord
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Fault, Faults
from weighin.slips.domain import faults
from weighin.slips.domain.fields import CHAIN, FIELDS, LATENESS
from weighin.slips.domain.values import SlipData
from weighin.slips.models import WeighSlip
from weighin.slips.parsing import check_slip
from weighin.slips.queries.cut import beyond_cut, has_cut, missed_cut, turned_out
from weighin.slips.queries.released import needs_ruling, settled_by_director
from weighin.slips.queries.slips import current_of, current_slips
from weighin.slips.services.carrying import carry_readings

MAY_CORRECT = frozenset({"correct"})
_ANOTHER = (
    "SELECT 1 FROM slips_weighslip s WHERE s.entry_id = %s AND s.day = %s AND NOT s.void "
    "AND NOT EXISTS (SELECT 1 FROM slips_weighslip r WHERE r.replaces_id = s.id) LIMIT 1"
)
OF_THE_CHECK_IN = ("checked_in", *LATENESS)


class SlipRecord(BoatRecord[WeighSlip]):
    """A weigh slip: chained, and of two for one boat and day neither counts until a director settles it."""

    model = WeighSlip
    noun = gettext_lazy("slip")
    fields = FIELDS
    corrects = "correct"
    of_a_void = ("day", "boat", "official")
    chain = CHAIN
    taken_out_meanwhile = REPLACED_MEANWHILE

    def rows(self) -> QuerySet[WeighSlip]:
        return WeighSlip.objects.select_related("entry", "replaces")

    def check(self, reader: Reader, old: WeighSlip | None) -> None:
        entry = reader.context.entries.get(reader["boat"])
        known = care_times.of_boat(entry.pk, reader["day"]) if entry and reader["day"] else {}
        check_slip(reader, known)
        if (
            old is None
            and not reader.faults
            and (late := missed_cut(reader.context.event, reader.context, reader["boat"], reader["day"]))
        ):
            reader.faults.append(Fault("boat", late))

    def check_correction(self, reader: Reader, old: WeighSlip, draft: Draft, asked: bool) -> list[Fault]:
        found = [] if reader["reason"].strip() else [NO_REASON.at("reason")]
        if reader["boat"] != old.entry.boat:
            whose = {"number": old.number, "boat": old.entry.boat, "other": reader["boat"]}
            field, *also = ("boat", "replaces") if asked else ("replaces",)
            found.append(faults.SLIP_OF_ANOTHER_BOAT.at(field, *also, **whose))
        elif draft.void and reader["day"] != old.day:
            found.append(faults.SLIP_OF_ANOTHER_DAY.at("day", number=old.number, day=old.day))
        return found

    def may_replace(self, old: WeighSlip, reader: Reader, draft: Draft, sender: Sender) -> None:
        if RULES in sender.cans:
            return
        said, unit = SlipData(**reader.values), reader.context.rules.unit
        why = needs_ruling(old, said, draft.void, unit) if sender.asked else settled_by_director(old)
        if why:
            raise Faults([why])

    def is_second(self, row: WeighSlip, old: WeighSlip | None, context: EventContext, known: Any) -> bool:
        if old is None:  # written out, since every slip waits for it
            return run(_ANOTHER, (row.entry_id, row.day)) is not None
        others = WeighSlip.objects.current().filter(entry=row.entry, day=row.day)
        return not row.void and bool(others.exclude(pk=old.pk).exists())

    def before(self, row: WeighSlip, old: WeighSlip | None, context: EventContext) -> Any:
        """A boat's first slip of a day turns no boat out that has fished on since the cut."""
        first = old is None and has_cut(context.event) and not current_of(context.event, row.entry.boat, row.day)
        return beyond_cut(context.event) if first else None

    def after(self, row: WeighSlip, old: WeighSlip | None, context: EventContext, known: Any) -> None:
        if known is not None and (turned := beyond_cut(context.event) - known):
            raise Faults([Fault("", turned_out(turned))])

    def differs(self, row: WeighSlip, asked: bool) -> Fault:
        return faults.SLIP_KEPT_OTHERWISE.at("id", number=row.number) if asked else super().differs(row, asked)

    def history(self, row: WeighSlip, old: WeighSlip | None, done: str) -> Noted:
        said = {"number": row.number, "boat": row.entry.boat, "day": row.day, "reason": row.reason}
        if old is None:
            sentence = _("Slip %(number)s saved for boat %(boat)s, day %(day)s") % said
        elif row.void:
            sentence = _("Slip %(number)s voids slip %(old)s of boat %(boat)s: %(reason)s") % {
                **said,
                "old": old.number,
            }
        else:
            sentence = _("Slip %(number)s replaces slip %(old)s of boat %(boat)s: %(reason)s") % {
                **said,
                "old": old.number,
            }
        return Noted(f"slip.{done}", sentence, f"slip {row.number}")


SLIP = SlipRecord()


def record_slip(event: Event, written: Mapping[str, str | None], by: str, slip_id: UUID | None = None) -> WeighSlip:
    """Keep a new slip. A second slip for a boat and day is kept too; neither counts then.

    ``slip_id`` is made by whoever writes the slip: sent again with the same content the first row is returned,
    with other content Faults names the field ``id``.

    Raises Faults with field names; nothing is written then.
    """
    if (written.get("replaces") or "").strip() or (written.get("void") or "").strip() in ("yes", "true"):
        raise Faults([faults.CORRECTION_ELSEWHERE.at("replaces")])
    number = (written.get("slip") or "").strip()
    draft = Draft(_texts(written), slip_id or uuid4(), number=int(number) if number.isdigit() else None)
    return _written(event, draft, by).kept()


def correct_slip(
    slip: WeighSlip, written: Mapping[str, str | None], by: str, ruling: bool = True, slip_id: UUID | None = None
) -> WeighSlip:
    """Keep a new slip that replaces ``slip``; ``written`` must hold a ``reason``. ``slip_id`` as in ``record_slip``.

    ``ruling``, here and below: whether ``by`` may change weights of fish that are released.
    Raises Faults, also when the slip was replaced meanwhile, and when it is written for another boat: a boat's
    slips replace only that boat's (``move_slip``).
    """
    return _written(slip.event, Draft(_texts(written), slip_id or uuid4(), slip.number), by, ruling).kept()


def leave_time_to_the_check_in(slip: WeighSlip, reason: str, by: str) -> WeighSlip:
    """Correct a slip to say nothing itself of when the boat came in: the check-in table's time counts. Raises Faults."""
    return correct_slip(slip, {**SLIP.texts(slip), **dict.fromkeys(OF_THE_CHECK_IN, ""), "reason": reason}, by)


def move_slip(
    slip: WeighSlip, written: Mapping[str, str | None], by: str, ruling: bool = True, slip_id: UUID | None = None
) -> WeighSlip:
    """A slip keyed for the wrong boat: take it out and keep a new one for the boat in ``written``, in one act.

    Both carry the ``reason``. ``slip_id`` as in ``record_slip``. Raises Faults; then neither is written.
    """
    with writing():
        event, draft = slip.event, Draft(_texts(written), slip_id or uuid4())
        reason = draft.texts.get("reason", "")
        if slip_id is None or not WeighSlip.objects.filter(pk=slip_id).exists():
            if not reason.strip():
                raise Faults([NO_REASON.at("reason")])
            void_slip(slip, reason, by, ruling)
        return _written(event, draft, by, ruling).kept()


def swap_slips(
    first: WeighSlip, second: WeighSlip, reason: str, by: str, ruling: bool = True
) -> tuple[WeighSlip, WeighSlip]:
    """Two slips keyed for each other's boats: each boat gets what the other's slip says, in one act.

    Two corrections with the same reason, in the order of the slips. What the check-in table says of a boat (its time,
    the minutes late and excused) stays with the boat. Raises Faults; then neither is written.
    """
    if (first.event_id, first.day) != (second.event_id, second.day) or first.entry_id == second.entry_id:
        raise Faults([faults.SWAP_OF_ONE_DAY.at("boat")])
    with writing():
        one, two = (
            correct_slip(mine, {**_of_the_other(mine, other), "reason": reason}, by, ruling)
            for mine, other in ((first, second), (second, first))
        )
        carry_readings([(second, one), (first, two)])
    return one, two


def void_slip(slip: WeighSlip, reason: str, by: str, ruling: bool = True) -> WeighSlip:
    """Take a slip out: the boat then has no slip that day; asked twice with the same reason it is taken out once.

    Raises Faults without a reason.
    """
    before: WeighSlip | None = WeighSlip.objects.filter(replaces=slip, void=True, reason=reason.strip()).first()
    if before is not None:
        return before
    texts = {"boat": str(slip.entry.boat), "day": str(slip.day), "reason": reason.strip()}
    return _written(slip.event, Draft(texts, uuid4(), slip.number, void=True), by, ruling).kept()


def settle(slip: WeighSlip, reason: str, by: str) -> list[WeighSlip]:
    """Of the current slips of one boat and day let ``slip`` count: the others are voided with the reason."""
    if not reason.strip():
        raise Faults([NO_REASON.at("reason")])
    with writing():
        EVENT.open(slip.event_id)
        require_current(SLIP, slip, asked=True)
        mine = [s for s in current_slips(slip.event) if (s.entry_id, s.day) == (slip.entry_id, slip.day)]
        others = [other for other in mine if other.pk != slip.pk]
        said = _("Slip %(number)s counts: %(reason)s") % {"number": slip.number, "reason": reason}
        return [void_slip(other, said[:500], by) for other in others]


def _written(event: Event, draft: Draft, by: str, ruling: bool = True) -> Outcome[WeighSlip]:
    cans = MAY_CORRECT | ({RULES} if ruling else set())
    return write(SLIP, event.pk, draft, Sender(by, frozenset(cans), asked=True))


def _texts(written: Mapping[str, str | None]) -> dict[str, str]:
    return {name: text for name, text in written.items() if text and name not in ("replaces", "void")}


def _of_the_other(mine: WeighSlip, other: WeighSlip) -> dict[str, str]:
    """What ``other`` says, written for the boat of ``mine`` in its place."""
    texts = {**SLIP.texts(other), **{name: SLIP.texts(mine)[name] for name in (*OF_THE_CHECK_IN, "boat")}}
    if texts["well_boat"] == texts["boat"]:  # its own well needs no word
        texts["well_boat"] = ""
    return texts
