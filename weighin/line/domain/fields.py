"""What is said in the line, and the figures it is run by, field by field."""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from weighin.events.domain.kinds import Day, Moment
from weighin.line.domain import faults
from weighin.line.models import LineWord
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Count, Line, Text
from weighin.roster.domain.kinds import Boat

Said = LineWord.Said
OF_A_BOAT = (Said.BAG_ISSUED, Said.AT_SCALES, Said.BAG_BACK, Said.LEFT, Said.RETURNED)
OXYGEN_MINUTES = 10
MOST_OXYGEN_MINUTES = 60
LONGEST_NAME, LONGEST_NOTE = 80, 500


@dataclass(frozen=True)
class Word(Choice):
    """One of the words of the line."""

    def read(self, text: str, beside: Beside) -> str:
        if text not in self.choices:
            raise faults.NO_SUCH_WORD_IN_LINE.wrong(word=text[:20])
        return text


@dataclass(frozen=True)
class BoatInLine(Boat):
    """The boat that a word is about."""

    def read(self, text: str, beside: Beside) -> int:
        if not text.isdigit() or int(text) not in beside.context.boats:
            raise faults.NO_BOAT_IN_LINE.wrong(boat=text, event=beside.context.event.name)
        return int(text)


@dataclass(frozen=True)
class Between(Count):
    """A whole number within bounds that are said together."""

    def read(self, text: str, beside: Beside) -> int:
        value = int(text)
        if not self.least <= value <= self.most:
            raise faults.WRITE_BETWEEN.wrong(least=self.least, most=self.most, value=value)
        return value


WORD = (
    Field("day", Day(), _("Day"), required=True),
    Field("said", Word(tuple(Said.choices)), _("Entry"), required=True),
    Field("boat", BoatInLine(), _("Boat")),
    Field("person", Line(LONGEST_NOTE), _("Resumed by")),
    Field("oxygen_minutes", Count(), _("Oxygen check due in"), unit="min"),
    Field("note", Text(LONGEST_NOTE), _("Why")),
    Field("at", Moment(), _("At")),
)
TERMS = (
    Field("scales", Between(1, 10), _("Scales in use"), required=True),
    Field("bags", Between(1, 500), _("Bags out at once"), required=True),
    Field("walk_seconds", Between(0, 3600), _("From the bag to the table"), unit="s", required=True),
    Field("boat_seconds", Between(10, 3600), _("A boat at one scale"), unit="s", required=True),
)
