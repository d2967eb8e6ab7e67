"""What a protest, a ruling on it and the time for protests say, field by field."""

from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice, Count, Line, Text
from weighin.roster.domain.kinds import LARGEST, Boat
from weighin.standings.domain import faults
from weighin.standings.domain.kinds import NearNow
from weighin.standings.models import Protest, Ruling

MOST_MINUTES = 10080  # a week: some clubs take protests by mail

PROTEST = (
    Field("who", Line(120), _("Who protests"), help=_("The team or the person. Never shown to the public."), required=True, missing=faults.WHO_PROTESTS, wire="", column=""),
    Field("boat", Boat(), _("About boat"), help=_("Blank: the boat of the slip, or the whole result."), wire="", column=""),
    Field("slip", Count(1, LARGEST), _("About slip"), help=_("The slip’s number, if it is about one."), wire="", column=""),
    Field("could", Choice(tuple(Protest.Could.choices)), _("What it could change"), help=_("Prizes that it can change wait for the ruling."), required=True, missing=faults.COULD_MISSING, wire="", column=""),
    Field("handed_in", NearNow(), _("Filed"), help=_("As 4:20 PM. Blank: now."), wire="", column=""),
    Field("matter", Text(), _("What it says"), help=_("Never shown to the public."), required=True, missing=faults.NO_MATTER, wire="", column=""),
    Field("reason", Line(500), _("Why it is corrected"), wire="", column=""),
)  # fmt: skip
RULING = (
    Field("case", Count(1, LARGEST), required=True, wire="", column=""),
    Field("outcome", Choice(tuple(Ruling.Outcome.choices)), _("The protest is"), required=True, missing=faults.OUTCOME_MISSING, wire="", column=""),
    Field("words", Text(), _("What was ruled, and why"), help=_("Never shown to the public."), required=True, missing=faults.NO_RULING_WORDS, wire="", column=""),
    Field("ruled_by", Line(120), _("Ruled by"), help=_("The committee, or names."), required=True, missing=faults.RULED_BY_MISSING, wire="", column=""),
    Field("ruled_at", NearNow(), _("Ruled at"), help=_("As 4:50 PM. Blank: now."), wire="", column=""),
    Field("reason", Line(500), _("Why the ruling is corrected"), wire="", column=""),
)  # fmt: skip
PROTEST_TIME = (
    Field("minutes", Count(0, MOST_MINUTES), _("Time for protests"), unit=_("min"), help=_("From when the provisional result is posted. 15 or 30 minutes are common."), required=True, missing=faults.MINUTES_MISSING, wire="", column=""),
)  # fmt: skip
