"""What a class mark says."""

from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice
from weighin.roster.domain.kinds import TeamOf
from weighin.roster.domain.value_faults import TEAM_MISSING
from weighin.seasons.domain.faults import CLASS_MISSING
from weighin.seasons.models import ClassMark

CLASS_MARK = (
    Field("entry", TeamOf(), _("Boat"), required=True, missing=TEAM_MISSING, wire="", column=""),
    Field("name", Choice(tuple(ClassMark.Name.choices)), _("Class"), required=True, missing=CLASS_MISSING, wire="", column=""),
)  # fmt: skip
