"""What a scale, a check of it and the readings taken from it say, field by field."""

from django.utils.translation import gettext_lazy as _

from weighin.events.domain.kinds import Moment, Weight
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice, Flag, Id, Line, Text
from weighin.rules import weights
from weighin.scales.domain import faults, kinds
from weighin.scales.domain.layouts import LAYOUTS, MOTION, OVERLOAD, OWN, REFUSED, STABLE, UNDERLOAD, UNZEROED
from weighin.scales.models import Scale, ScaleCheck

MOST_LARGEST = 12
PARTS = ("gross", "tare", "big_fish", *(f"largest_{number}" for number in range(1, MOST_LARGEST + 1)))
STATES = (STABLE, MOTION, OVERLOAD, UNDERLOAD, REFUSED, UNZEROED, "silent")
BAUDS = (300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200)


def _these(*values: object) -> tuple[tuple[str, str], ...]:
    return tuple((str(value), str(value)) for value in values)


SCALE = (
    Field("name", Line(40), _("Name"), help=_("As it is called at the scales: Table 1."), required=True, missing=faults.SCALE_WITHOUT_NAME),
    Field("division", kinds.Division(), _("Division"), help=_("The plate says it as d or e."), required=True, missing=faults.SCALE_WITHOUT_DIVISION),
    Field("made_by", Line(), _("Maker and number"), help=_("From its plate, for the record.")),
    Field("new", Flag((("no", _("Maintenance")), ("yes", _("Acceptance")))), _("Tolerance"), help=_("Acceptance, half of it, while the scale is new or just repaired."), default=False),
    Field("in_use", Flag(), _("In use at this event"), default=True),
    Field("stations", kinds.StationNames(), _("Tablets whose slips it weighs"), help=_("Names with commas. Needed only where the event has several scales.")),
    Field("layout", Choice((*((name, layout.words) for name, layout in LAYOUTS.items()), (OWN, _("Its own pattern")))), _("What it sends")),
    Field("pattern", kinds.Pattern(), _("Its own pattern"), help=_("Such as {state},{figures} {unit}.")),
    Field("ask", kinds.Command(), _("Command that asks for a weight"), help=_("Such as S or P; the manual says it.")),
    Field("baud", kinds.OneOf(_these(*BAUDS)), _("Bits a second"), default=9600),
    Field("data_bits", kinds.OneOf(_these(8, 7)), _("Data bits"), default=8),
    Field("parity", Choice(tuple(Scale.Parity.choices)), _("Parity"), default=Scale.Parity.NONE),
    Field("stop_bits", kinds.OneOf(_these(1, 2)), _("Stop bits"), default=1),
)  # fmt: skip
CHECK = (
    Field("scale", kinds.ScaleName(), required=True),
    Field("moment", Choice(tuple(ScaleCheck.Moment.choices)), _("When"), required=True, missing=faults.TEST_WITHOUT_MOMENT),
    Field("test_weight", kinds.TestWeight(), _("Test weight, as marked"), required=True, missing=faults.TEST_WEIGHT_MISSING),
    Field("shown", Weight(), _("The scale shows"), required=True, missing=faults.SHOWN_MISSING),
    Field("at", kinds.TestedAt(), required=True, missing=faults.TEST_WITHOUT_TIME),
    Field("tested_by", Line(), _("By whom"), required=True, missing=faults.TEST_BY_NOBODY),
    Field("note", Text(), _("Note")),
    Field("reason", Text()),
)  # fmt: skip
READING = (
    Field("slip_id", Id(), meaning=_("The id of the slip it went into; the slip may come later."), wire="slip", required=True),
    Field("field", kinds.Part(_these(*PARTS)), meaning=_("The slip’s field it was taken into."), required=True),
    Field("text", Weight(), meaning=_("The weight as it was taken."), required=True),
    Field("unit", kinds.Unit(_these(*weights.UNITS)), meaning=_("The unit the scale said."), required=True),
    Field("raw", kinds.ScaleLine(), meaning=_("The line as it came from the scale; signs that cannot be seen as <STX>."), required=True),
    Field("scale", kinds.ScaleName(), meaning=_("The scale’s name, as added to the event.")),
    Field("taken_at", Moment(), meaning=_("When it was taken, by the device’s clock."), wire="taken", required=True),
)  # fmt: skip
NOW = (
    Field("scale", Text(), meaning=_("The scale’s name, as added to the event."), required=True),
    Field("state", Choice(_these(*STATES)), meaning=_("How the scale stands; silent when nothing came from it."), required=True),
    Field("text", Text(), meaning=_("What it shows, with its sign; only when it is known.")),
    Field("unit", Text(), meaning=_("The unit it says.")),
    Field("raw", Text(), meaning=_("The line as it came.")),
)  # fmt: skip
