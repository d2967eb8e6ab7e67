"""Numbers of paper slips: entered, spoiled, blank, and missing."""

from collections.abc import Iterable
from dataclasses import dataclass

from weighin.events.models import Event
from weighin.scale.models import PaperNumber, PaperPad, WeighSlip


@dataclass(frozen=True)
class PadState:
    """A pad with what became of its numbers; ``missing`` are those nothing is said of yet."""

    pad: PaperPad
    said: tuple[PaperNumber, ...]
    missing: tuple[int, ...]

    @property
    def missing_words(self) -> str:
        """The missing numbers in runs, such as ``101 to 104, 107``; empty without any."""
        return in_runs(self.missing)


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


def paper_number_of(slip: WeighSlip) -> int | None:
    """The number of the paper a slip was entered from; None when it was not."""
    found = PaperNumber.objects.current().filter(slip_id=slip.pk).values_list("number", flat=True)
    return found.first()


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
    said = [f"{a}" if a == b else f"{a} and {b}" if b == a + 1 else f"{a} to {b}" for a, b in runs]
    return ", ".join(said)
