"""Pads of paper slips and what became of their numbers, through the door. Rows are only added."""

from collections.abc import Collection, Mapping
from typing import ClassVar
from uuid import UUID

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write, write_many
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.services.event_scope import EVENT
from weighin.rules.faults import Faults
from weighin.slips.domain import faults
from weighin.slips.domain.paper import LARGEST, PAD, PAPER, number_of
from weighin.slips.models import PaperNumber, PaperPad, WeighSlip
from weighin.slips.queries.pads import in_runs
from weighin.slips.services.slips import record_slip

MOST_OF_A_PAD = 200


class PadRecord(RecordType[PaperPad]):
    """A pad that is handed out; its numbers are no other pad's."""

    model = PaperPad
    noun = gettext_lazy("set of paper slips")
    fields = PAD
    scope: ClassVar[Scope] = EVENT
    key = ""
    numbered = False

    def check(self, reader: Reader, old: PaperPad | None) -> None:
        first, last = reader["first"], reader["last"]
        if not first:
            reader.fault("first", faults.ODD_FIRST_NUMBER, most=LARGEST)
        if not last or (first and not first <= last < first + MOST_OF_A_PAD):
            reader.fault("last", faults.ODD_LAST_NUMBER, most=MOST_OF_A_PAD)
        if reader.sure("first", "last"):
            shared = PaperPad.objects.filter(event=reader.context.event_id, first__lte=last, last__gte=first).first()
            if shared is not None:
                said = {"pad": shared.name, "first": shared.first, "last": shared.last}
                reader.fault("first", faults.NUMBERS_ON_OTHER_PAD, **said)

    def history(self, row: PaperPad, old: PaperPad | None, done: str) -> Noted:
        said = {"pad": row.name, "first": row.first, "last": row.last, "whom": row.handed_to}
        sentence = _("Paper slips %(pad)s, %(first)s to %(last)s, given to %(whom)s") % said
        return Noted("pad.handed_out", sentence, f"pad {row.name}")


class PaperRecord(RecordType[PaperNumber]):
    """What became of a number; a void takes back what was said of it."""

    model = PaperNumber
    noun = gettext_lazy("paper slip")
    fields = PAPER
    scope: ClassVar[Scope] = EVENT
    key = ""
    numbered = False
    of_a_void = ()
    without_reason = faults.TAKEN_BACK_WITHOUT_REASON

    def check(self, reader: Reader, old: PaperNumber | None) -> None:
        became, number = reader["became"], reader["number"]
        if became == PaperNumber.Became.ENTERED and reader["slip_id"] is None:
            reader.fault("became", faults.PAPER_WITHOUT_WORD)
        if became == PaperNumber.Became.SPOILED and not reader["reason"] and reader.sure("reason"):
            reader.fault("reason", faults.SPOILED_WITHOUT_REASON)
        event = reader.context.event_id
        if not PaperPad.objects.filter(event=event, first__lte=number, last__gte=number).exists():
            shown = reader.texts.get("number", "")[:20] or "blank"
            reader.fault("number", faults.NOT_ON_A_PAD, number=shown)
        elif (said := _said_of(event, number)) is not None:
            slip = WeighSlip.objects.filter(pk=said.slip_id).first() if said.slip_id else None
            what = faults.PAPER_ENTERED_AS.says(slip=slip.number) if slip else said.get_became_display().lower()
            reader.fault("number", faults.PAPER_SPOKEN_FOR, number=number, what=what)

    def history(self, row: PaperNumber, old: PaperNumber | None, done: str) -> Noted:
        said, subject = {"number": row.number, "reason": row.reason}, f"paper slip {row.number}"
        if row.void:
            sentence = _("Entry for paper slip %(number)s voided: %(reason)s") % said
            return Noted("paper.taken_back", sentence, subject)
        if row.slip_id is None:
            return _unused([row.number], row.became, row.reason)
        slip = WeighSlip.objects.get(pk=row.slip_id).number
        sentence = _("Paper slip %(number)s entered as slip %(slip)s") % {**said, "slip": slip}
        return Noted("paper.entered", sentence, subject)


PAPER_PAD = PadRecord()
PAPER_NUMBER = PaperRecord()


def hand_out(event: Event, name: str, first: str, last: str, handed_to: str, by: str) -> PaperPad:
    """Write a pad down. Raises Faults for ``name``, ``first``, ``last`` and ``handed_to``."""
    draft = Draft({"name": name, "first": first, "last": last, "handed_to": handed_to})
    return write(PAPER_PAD, event.pk, draft, Sender(by, asked=True)).kept()


def enter_paper(
    event: Event, written: Mapping[str, str | None], paper: str, by: str, slip_id: UUID | None
) -> WeighSlip:
    """Keep a slip written by hand, with the number of its paper when ``paper`` is not blank, in one act.

    Raises Faults, for ``paper_number`` too; nothing is written then.
    """
    if not paper.strip():
        return record_slip(event, written, by, slip_id)
    with writing():
        slip = record_slip(event, written, by, slip_id)
        before = _said_of(event.pk, number_of(paper))
        if before is None or before.slip_id != slip.pk:
            texts = {"number": paper, "became": PaperNumber.Became.ENTERED, "slip_id": str(slip.pk)}
            draft = Draft(texts, names={"number": "paper_number"})
            write(PAPER_NUMBER, event.pk, draft, Sender(by, asked=True)).kept()
    return slip


def say_unused(event: Event, first: str, last: str, became: str, reason: str, by: str) -> list[PaperNumber]:
    """Numbers that no slip comes from: ``spoiled``, with the reason, or ``blank``. ``last`` may be blank for one number.

    Raises Faults for ``first``, ``last``, ``became`` and ``reason``.
    """
    with writing():
        context = EVENT.open(event.pk)

        def read(number: str, field: str) -> Values:
            draft = Draft({"number": number, "became": became, "reason": reason}, names={"number": field})
            reader = PAPER_NUMBER.read(draft, context)
            if reader.faults:
                raise Faults(draft.told(reader.faults))
            return reader.values

        start = read(first, "first")["number"]
        end = read(last, "last")["number"] if last.strip() else start
        if not start <= end < start + MOST_OF_A_PAD:
            raise Faults([faults.LAST_BELOW_FIRST.at("last")])
        values = [read(str(number), "last") for number in range(start, end + 1)]
        made = write_many(PAPER_NUMBER, context, values, Sender(by))
        noted = _unused(range(start, end + 1), became, made[0].reason)
        log_history(
            by, noted.act, noted.sentence, club_id=context.club_id, event_id=event.pk, subject=noted.subject
        )  # fmt: skip
    return made


def take_back(event: Event, number: int, reason: str, by: str) -> None:
    """Take back what was said of a number, which is missing again. A slip entered from it stays. Raises Faults."""
    with writing():
        EVENT.open(event.pk)
        said = _said_of(event.pk, number)
        if said is None:
            raise Faults([faults.NOTHING_SAID_OF_PAPER.at("", number=number)])
        draft = Draft({"reason": reason}, replaces=said.pk, void=True)
        write(PAPER_NUMBER, event.pk, draft, Sender(by, asked=True)).kept()


def _said_of(event_id: int, number: int) -> PaperNumber | None:
    found: PaperNumber | None = PaperNumber.objects.current().filter(event=event_id, number=number).first()
    return found


def _unused(numbers: Collection[int], became: str, reason: str) -> Noted:
    sentence = _("Paper slip %(numbers)s came back blank")
    if became == PaperNumber.Became.SPOILED:
        sentence = _("Paper slip %(numbers)s spoiled")
    said = sentence % {"numbers": in_runs(numbers)} + (f": {reason}" if reason else "")
    return Noted(f"paper.{became}", said, f"paper slip {min(numbers)}")
