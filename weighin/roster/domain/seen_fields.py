"""What the desk writes of a team beside its entry: what was seen, and what it asks for."""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Count, Line
from weighin.roster.domain import faults
from weighin.roster.domain.kinds import TeamOf
from weighin.roster.domain.value_faults import TEAM_MISSING
from weighin.roster.models import DeskAsks, Seen
from weighin.rules import values

ASKABLE = (*((what.value, what.label) for what in Seen.What), (DeskAsks.CONTACT, _("Emergency contact")))


@dataclass(frozen=True)
class Asked(Line):
    """Names of ``ASKABLE`` with commas between them, kept in its order; nothing: nothing is asked for."""

    def read(self, text: str, beside: Beside) -> str:
        names = [name for name, _label in ASKABLE]
        written = {values.choice(part, names) for part in text.split(",") if part.strip()}
        return ",".join(name for name in names if name in written)


SEEN = (
    Field("entry", TeamOf(), _("Boat"), required=True, missing=TEAM_MISSING, wire="", column=""),
    Field("what", Choice(tuple(Seen.What.choices)), _("What was seen"), required=True, missing=faults.WHAT_MISSING, wire="", column=""),
    Field("day", Count(least=1, most=400), _("Day"), wire="", column=""),
)  # fmt: skip
ASKS = (Field("asked", Asked(200), _("What the desk asks for"), wire="", column=""),)
