"""What a payment, a side pot and a pay-out say, field by field."""

from django.utils.translation import gettext_lazy as _

from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice, Line, Text
from weighin.registration.domain import faults
from weighin.registration.domain.kinds import Amount, PotName, Shares
from weighin.registration.models import Means, Payment, PayOut, Wins
from weighin.roster.domain.kinds import TeamOf
from weighin.roster.domain.value_faults import TEAM_MISSING

OF_A_PERSON = tuple((name, label) for name, label in Means.choices if name != Means.NOT_RECORDED)

PAYMENT = (
    Field("entry", TeamOf(), _("Boat"), required=True, missing=TEAM_MISSING, wire="", column=""),
    Field("kind", Choice(tuple(Payment.Kind.choices)), _("For"), required=True, missing=faults.KIND_MISSING, wire="", column=""),
    Field("pot", PotName(), _("Side pot"), wire="", column=""),
    Field("amount", Amount(signed=True), _("Amount"), help=_("With a minus for a refund."), required=True, missing=faults.AMOUNT_MISSING, wire="", column=""),
    Field("means", Choice(tuple(Means.choices)), _("Paid by"), required=True, missing=faults.MEANS_MISSING, wire="", column=""),
    Field("reason", Text(), _("Why"), wire="", column=""),
)  # fmt: skip
SIDE_POT = (
    Field("name", Line(60), _("Name"), required=True, missing=faults.POT_WITHOUT_NAME, wire="", column=""),
    Field("fee", Amount(), _("Fee"), help=_("What a team pays to be in it."), required=True, missing=faults.POT_WITHOUT_FEE, wire="", column=""),
    Field("wins", Choice(tuple(Wins.choices)), _("What wins"), required=True, missing=faults.POT_WITHOUT_WINNER, wire="", column=""),
    Field("shares", Shares(), _("Shares"), help=_("Blank: all to the first. 60, 40 splits it between the first two."), wire="", column=""),
    Field("reason", Text(), _("Why it changes"), help=_("Needed to change the fee once a team has paid."), wire="", column=""),
)  # fmt: skip
PAY_OUT = (
    Field("entry", TeamOf(), _("Boat"), required=True, missing=TEAM_MISSING, wire="", column=""),
    Field("kind", Choice(tuple(PayOut.Kind.choices)), _("For"), required=True, missing=faults.KIND_MISSING, wire="", column=""),
    Field("pot", PotName(), _("Side pot"), wire="", column=""),
    Field("amount", Amount(), _("Amount"), required=True, missing=faults.AMOUNT_MISSING, wire="", column=""),
    Field("means", Choice(tuple(Means.choices)), _("Paid by"), required=True, missing=faults.MEANS_MISSING, wire="", column=""),
    Field("received_by", Line(), _("Received by"), required=True, missing=faults.RECEIVER_MISSING, wire="", column=""),
    Field("reason", Text(), _("Why"), wire="", column=""),
)  # fmt: skip
