"""Hand pads out, and say what became of their numbers. Rows are only added."""

from collections.abc import Mapping
from uuid import UUID

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.rules.faults import Fault, Faults, Sentence, Wrong
from weighin.rules.values import line
from weighin.slips.domain.faults import (
    LAST_BELOW_FIRST,
    NOT_ON_A_PAD,
    NOTHING_SAID_OF_PAPER,
    NUMBERS_ON_OTHER_PAD,
    ODD_FIRST_NUMBER,
    ODD_LAST_NUMBER,
    PAD_WITH_NOBODY,
    PAD_WITHOUT_NAME,
    PAPER_ENTERED_AS,
    PAPER_SPOKEN_FOR,
    PAPER_WITHOUT_WORD,
    SPOILED_WITHOUT_REASON,
    TAKEN_BACK_WITHOUT_REASON,
)
from weighin.slips.models import PaperNumber, PaperPad, WeighSlip
from weighin.slips.queries.pads import in_runs
from weighin.slips.services.slips import record_slip

MOST_OF_A_PAD = 200
LARGEST = 999_999


def hand_out(event: Event, name: str, first: str, last: str, handed_to: str, by: str) -> PaperPad:
    """Write a pad down. Raises Faults for ``name``, ``first``, ``last`` and ``handed_to``."""
    faults = [*_text_faults("name", name, 40, PAD_WITHOUT_NAME)]
    faults += _text_faults("handed_to", handed_to, 120, PAD_WITH_NOBODY)
    start, end = _number(first), _number(last)
    if start is None:
        faults.append(ODD_FIRST_NUMBER.at("first", most=LARGEST))
    if end is None or (start is not None and not start <= end < start + MOST_OF_A_PAD):
        faults.append(ODD_LAST_NUMBER.at("last", most=MOST_OF_A_PAD))
    if faults or start is None or end is None:
        raise Faults(faults)
    with writing():
        held = lock_open_event(event)
        other = PaperPad.objects.filter(event=held, first__lte=end, last__gte=start).first()
        if other is not None:
            raise Faults([NUMBERS_ON_OTHER_PAD.at("first", pad=other.name, first=other.first, last=other.last)])
        pad = PaperPad.objects.create(
            event=held, name=name.strip(), first=start, last=end, handed_to=handed_to.strip(), recorded_by=by
        )
        _note(
            held,
            "pad.handed_out",
            f"Pad {pad.name}, {start} to {end}, handed to {pad.handed_to}",
            f"pad {pad.name}",
            by,
        )
    return pad


def enter_paper(
    event: Event, written: Mapping[str, str | None], paper: str, by: str, slip_id: UUID | None
) -> WeighSlip:
    """Keep a slip written by hand, with the number of its paper when ``paper`` is not blank, in one act.

    Raises Faults, for ``paper_number`` too; nothing is written then.
    """
    if not paper.strip():
        return record_slip(event, written, by, slip_id)
    with writing():
        number = _known(event, paper, "paper_number")
        slip = record_slip(event, written, by, slip_id)
        before = _current(event, number)
        if before is not None and before.slip_id == slip.pk:
            return slip
        _refuse_said(event, number, before, "paper_number")
        PaperNumber.objects.create(
            event=event, number=number, became=PaperNumber.Became.ENTERED, slip_id=slip.pk, recorded_by=by
        )
        _note(event, "paper.entered", f"Paper slip {number} entered as slip {slip.number}", f"paper slip {number}", by)
    return slip


def say_unused(event: Event, first: str, last: str, became: str, reason: str, by: str) -> list[PaperNumber]:
    """Numbers that no slip comes from: ``spoiled``, with the reason, or ``blank``. ``last`` may be blank for one number.

    Raises Faults for ``first``, ``last``, ``became`` and ``reason``.
    """
    faults = []
    if became not in (PaperNumber.Became.SPOILED, PaperNumber.Became.BLANK):
        faults.append(PAPER_WITHOUT_WORD.at("became"))
    if became == PaperNumber.Became.SPOILED or reason.strip():
        faults += _text_faults("reason", reason, 500, SPOILED_WITHOUT_REASON)
    if faults:
        raise Faults(faults)
    with writing():
        held = lock_open_event(event)
        start = _known(held, first, "first")
        end = _known(held, last, "last") if last.strip() else start
        if not start <= end < start + MOST_OF_A_PAD:
            raise Faults([LAST_BELOW_FIRST.at("last")])
        numbers = range(start, end + 1)
        for number in numbers:
            _known(held, str(number), "last")
            _refuse_said(held, number, _current(held, number), "first")
        made = [
            PaperNumber(event=held, number=number, became=became, reason=reason.strip(), recorded_by=by)
            for number in numbers
        ]
        PaperNumber.objects.bulk_create(made)
        words = "spoiled" if became == PaperNumber.Became.SPOILED else "came back blank"
        why = f": {reason.strip()}" if reason.strip() else ""
        _note(held, f"paper.{became}", f"Paper slip {in_runs(numbers)} {words}{why}", f"paper slip {start}", by)
    return made


def take_back(event: Event, number: int, reason: str, by: str) -> None:
    """Take back what was said of a number, which is missing again. A slip entered from it stays. Raises Faults."""
    faults = _text_faults("reason", reason, 500, TAKEN_BACK_WITHOUT_REASON)
    if faults:
        raise Faults(faults)
    with writing():
        held = lock_open_event(event)
        said = _current(held, number)
        if said is None:
            raise Faults([NOTHING_SAID_OF_PAPER.at("", number=number)])
        PaperNumber.objects.create(
            event=held, number=number, became=said.became, slip_id=said.slip_id, replaces=said, void=True,
            reason=reason.strip(), recorded_by=by,
        )  # fmt: skip
        sentence = f"What was said of paper slip {number} is taken back: {reason.strip()}"
        _note(held, "paper.taken_back", sentence, f"paper slip {number}", by)


def _current(event: Event, number: int) -> PaperNumber | None:
    found: PaperNumber | None = PaperNumber.objects.current().filter(event=event, number=number).first()
    return found


def _known(event: Event, text: str, field: str) -> int:
    number = _number(text)
    if number is None or not PaperPad.objects.filter(event=event, first__lte=number, last__gte=number).exists():
        shown = text.strip()[:20] or "blank"
        raise Faults([NOT_ON_A_PAD.at(field, number=shown)])
    return number


def _refuse_said(event: Event, number: int, said: PaperNumber | None, field: str) -> None:
    if said is None:
        return
    slip = WeighSlip.objects.filter(pk=said.slip_id).first() if said.slip_id else None
    what = PAPER_ENTERED_AS.says(slip=slip.number) if slip else said.get_became_display().lower()
    raise Faults([PAPER_SPOKEN_FOR.at(field, number=number, what=what)])


def number_of(text: str) -> int:
    """The number as written; 0, which no paper has, for anything else."""
    return _number(text) or 0


def _number(text: str) -> int | None:
    written = text.strip()
    if not (written.isascii() and written.isdigit() and len(written) < 7):
        return None
    return int(written) or None


def _text_faults(field: str, text: str, longest: int, blank: Sentence) -> list[Fault]:
    try:
        return [] if line(text, longest) else [blank.at(field)]
    except Wrong as error:
        return [error.at(field)]


def _note(event: Event, act: str, sentence: str, subject: str, by: str) -> None:
    raise_revision(event)
    log_history(by, act, sentence, club_id=event.season.club_id, event_id=event.pk, subject=subject)
