"""What a pad of paper slips says, and what is said of one of its numbers, field by field."""

from dataclasses import dataclass
from typing import Any, ClassVar

from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Id, Kind, Line
from weighin.slips.domain import faults
from weighin.slips.models import PaperNumber

LARGEST = 999_999


@dataclass(frozen=True)
class OnPaper(Kind):
    """The number that is printed on a paper slip; anything else is 0, which no paper has."""

    blank: ClassVar[Any] = 0

    def read(self, text: str, beside: Beside) -> int:
        return number_of(text)


PAD = (
    Field("name", Line(40), _("Set"), help=_("Its color or mark, such as Blue."), required=True, missing=faults.PAD_WITHOUT_NAME),
    Field("first", OnPaper(), _("First number")),
    Field("last", OnPaper(), _("Last number")),
    Field("handed_to", Line(), _("Given to"), required=True, missing=faults.PAD_WITH_NOBODY),
)  # fmt: skip
PAPER = (
    Field("became", Choice(tuple(PaperNumber.Became.choices)), required=True, missing=faults.PAPER_WITHOUT_WORD),
    Field("reason", Line(500)),
    Field("number", OnPaper()),
    Field("slip_id", Id()),
)


def number_of(text: str) -> int:
    """The number as written; 0 for anything else."""
    written = text.strip()
    is_one = written.isascii() and written.isdigit() and len(written) <= len(str(LARGEST))
    return int(written) if is_one else 0
