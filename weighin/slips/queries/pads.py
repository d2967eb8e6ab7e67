"""Numbers of paper slips: entered, spoiled, blank, and missing."""

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from django.utils.translation import gettext, ngettext

from weighin.events.models import Event
from weighin.slips.models import PaperNumber, PaperPad, WeighSlip


@dataclass(frozen=True)
class PadState:
    """A pad with what became of its numbers; ``missing`` are those nothing is said of yet."""

    pad: PaperPad
    said: tuple[PaperNumber, ...]
    missing: tuple[int, ...]

    @property
    def missing_words(self) -> str:
        """Which numbers are missing, in a sentence; empty without any."""
        if not self.missing:
            return ""
        missing = ngettext(
            "Number %(numbers)s of set %(pad)s is missing.",
            "Numbers %(numbers)s of set %(pad)s are missing.",
            len(self.missing),
        )
        return missing % {"numbers": in_runs(self.missing), "pad": self.pad.name}


def pads_of(event: Event) -> list[PadState]:
    """Every pad by its first number."""
    said = {row.number: row for row in PaperNumber.objects.current().filter(event=event)}
    return [
        PadState(
            pad,
            tuple(said[number] for number in range(pad.first, pad.last + 1) if number in said),
            tuple(number for number in range(pad.first, pad.last + 1) if number not in said),
        )
        for pad in PaperPad.objects.filter(event=event)
    ]


def missing_numbers(event: Event) -> list[int]:
    """The numbers handed out of which nothing is said yet: neither entered, nor spoiled, nor back blank."""
    return [number for state in pads_of(event) for number in state.missing]


def slip_numbers(event: Event, said: Iterable[PaperNumber]) -> dict[int, int]:
    """Paper number -> the slip that was entered from it."""
    ids = {row.slip_id: row.number for row in said if row.slip_id}
    found = WeighSlip.objects.filter(event=event, pk__in=ids).values_list("pk", "number")
    return {ids[pk]: number for pk, number in found}


def papers_of(event: Event, slips: Iterable[WeighSlip]) -> dict[UUID, str]:
    """Slip id -> the paper it was entered from, in words, such as ``paper slip 103 of pad Blue``."""
    said = PaperNumber.objects.current().filter(event=event, slip_id__in=[slip.pk for slip in slips])
    found = dict(said.values_list("slip_id", "number"))
    pads = list(PaperPad.objects.filter(event=event)) if found else []
    names = {number: pad.name for pad in pads for number in found.values() if pad.first <= number <= pad.last}
    return {
        pk: gettext("paper slip %(number)s of set %(pad)s") % {"number": number, "pad": names[number]}
        for pk, number in found.items()
    }


def in_runs(numbers: Iterable[int]) -> str:
    """Numbers in words, those that follow each other as a run.

    >>> in_runs([1, 2, 3, 7, 9, 10])
    '1 to 3, 7, 9 and 10'
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and runs[-1][1] == number - 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    said: list[str] = []
    for a, b in runs:
        run = [gettext("%(first)s to %(last)s") % {"first": a, "last": b}]
        said += run if b > a + 1 else [f"{number}" for number in range(a, b + 1)]
    if len(said) < 2:
        return "".join(said)
    return gettext("%(first)s and %(last)s") % {"first": ", ".join(said[:-1]), "last": said[-1]}
