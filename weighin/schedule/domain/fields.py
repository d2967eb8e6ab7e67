"""What a line of the permit checklist says, field by field."""

from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Count, Line, Text
from weighin.schedule.domain import faults
from weighin.schedule.domain.kinds import AnyDate

PERMIT_LINE = (
    Field("what", Line(200), _("What"), required=True, missing=faults.LINE_WITHOUT_WHAT, wire="", column=""),
    Field("days_before", Count(0, 730), _("Due before the event"), unit=_("days"), required=True, missing=faults.LINE_WITHOUT_DAYS, wire="", column=""),
    Field("who", Line(120), _("Who sees to it"), wire="", column="", default=""),
    Field("note", Text(500), _("Note"), help=_("Its number, whom to ask, what they said."), wire="", column="", default=""),
    Field("done_on", AnyDate(), _("Done on"), help=_("Blank while it is open."), wire="", column=""),
    Field("done_by", Line(120), _("Done by"), wire="", column="", default=""),
)  # fmt: skip
