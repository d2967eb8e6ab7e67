"""What pens, looks into them and finished rows say, field by field, in the order of workbook and page."""

from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext_lazy as _

from weighin.events.domain.calendar import read_clock
from weighin.events.domain.kinds import DateAndTime, WaterTemperature
from weighin.holding.domain import faults
from weighin.holding.models import HoldingPen, StudyPen
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Beside, Choice, Count, Figure, Kind, Line, Text

MOST_FISH = 100_000
FISH = Count(0, MOST_FISH)
NAME = Line(80)
SOURCE = Line(200)
KIND = Field("kind", Choice(tuple(HoldingPen.Kind.choices)), _("Which fish"), required=True)
WATER = Field("water_temp", WaterTemperature(), _("Water in the pen"))
NOTE = Field("note", Text(), _("Note"))


@dataclass(frozen=True)
class Started(Line):
    """A date, a date-time, or a time of the event's first day, kept as it was written."""

    most: int = 40

    def read(self, text: str, beside: Beside) -> str:
        try:
            if len(text) > self.most:
                raise ValueError
            datetime.fromisoformat(text)
        except ValueError:
            try:
                read_clock(text)
            except ValueError:
                raise faults.NEITHER_DATE_NOR_TIME.wrong(written=text[: self.most]) from None
        return text


@dataclass(frozen=True)
class OfPen(Kind):
    """The pen that was looked into, by its id."""

    def read(self, text: str, beside: Beside) -> StudyPen:
        pen = StudyPen.objects.filter(event=beside.context.event_id, pk=text).first()
        if pen is None:
            raise faults.NO_SUCH_PEN.wrong()
        return pen

    def text(self, value: StudyPen) -> str:
        return str(value.pk)

    def plain(self, value: StudyPen) -> str:
        return str(value.pk)


PEN = (
    KIND,
    Field("pen", NAME, _("Pen"), required=True, help=_("The number on it.")),
    Field("group", NAME, _("Study"), required=True, help=_("Pens of one study have one name, such as the day.")),
    Field(
        "held",
        Count(1, MOST_FISH),
        _("Fish added"),
        unit=_("fish"),
        required=True,
        help=_("Living ones, counted twice."),
    ),
    Field("planned_hours", Count(1, 1000), _("Watched for"), unit=_("hours"), required=True),
    Field("started", DateAndTime(), _("Started"), required=True),
    Field("species", NAME, _("Species")),
    Field(
        "source",
        SOURCE,
        _("Where from"),
        help=_("How they were drawn; for reference fish, how they were caught."),
    ),
    NOTE,
)
CHECK = (
    Field("pen", OfPen(), required=True),
    Field(
        "dead",
        FISH,
        _("Dead"),
        unit=_("fish"),
        required=True,
        help=_("Since the last check; remove them. 0 when there is none."),
    ),
    Field("missing", FISH, _("Missing"), unit=_("fish"), default=0, help=_("Counted in, not to be found.")),
    Field("escaped", FISH, _("Escaped"), unit=_("fish"), default=0, help=_("Seen to get out, or a hole was found.")),
    Field("at", DateAndTime(), _("Checked at"), required=True),
    WATER,
    Field("do", Figure(most=60), _("Oxygen in the pen"), unit="mg/L"),
    NOTE,
)
FINISHED = (
    Field("group", NAME, _("Study"), required=True),
    KIND,
    Field("pen", NAME, _("Pen")),
    Field("source", SOURCE, _("Where from")),
    Field("species", NAME, _("Species")),
    Field("started", Started(), _("Started"), help=_("A date, such as Jun 20, 2026, 3:30 PM.")),
    Field(
        "hours",
        Figure(),
        _("Watched for"),
        unit=_("hours"),
        required=True,
        help=_("Up to the last check, not what was planned."),
    ),
    Field("held", FISH, _("Fish added"), unit=_("fish"), required=True),
    Field("dead", FISH, _("Dead"), unit=_("fish"), required=True),
    Field("missing", FISH, _("Missing or escaped"), unit=_("fish"), default=0),
    WATER,
    NOTE,
)
