"""What somebody says of a draw."""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Flag, Line
from weighin.registration.domain.drawing import seed_of
from weighin.registration.models import Draw
from weighin.rules import values


@dataclass(frozen=True)
class Seed(Line):
    """The seed, as the recipe takes it."""

    most: int = 500

    def read(self, text: str, beside: Beside) -> str:
        return values.line(seed_of(text), self.most)


DRAW = (
    Field("purpose", Choice(tuple(Draw.Purpose.choices)), _("What is drawn"), required=True, wire="", column=""),
    Field(
        "way",
        Choice(tuple(Draw.Way.choices)),
        _("How"),
        default=Draw.Way.SEED.value,
        wire="",
        column="",
    ),
    Field(
        "seed",
        Seed(),
        _("Seed"),
        help=_("Something nobody could know beforehand, such as a coin tossed in public. Read it out before the draw."),
        wire="",
        column="",
    ),
    Field("reason", Line(500), _("Why it is voided"), wire="", column=""),
)
SHOWN = (Field("shown", Flag(), _("Shown to the public"), required=True, wire="", column=""),)
