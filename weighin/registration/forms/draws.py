"""The forms of a draw: its seed, and why it is voided."""

from typing import Any

from django.utils.translation import gettext_lazy

from weighin.records.forms.written import WrittenForm, choice, line
from weighin.registration.models import Draw
from weighin.registration.services.draws import BY_PAYMENT


class DrawForm(WrittenForm):
    """The seed to draw with; boat numbers and launch places may go by payment instead."""

    seed = line(
        gettext_lazy("Seed"),
        maxlength="500",
        help_text=gettext_lazy(
            "Something nobody could know beforehand, such as a coin tossed in public. Read it out, then draw."
        ),
    )
    way = choice(
        gettext_lazy("How"),
        Draw.Way.choices,
        help_text=gettext_lazy(
            "First paid, first out: in the order in which the entry fees were paid, without a seed."
        ),
    )

    def __init__(self, purpose: str, data: Any = None):
        self.purpose = purpose
        super().__init__(data, prefix=purpose, initial={"way": Draw.Way.SEED})
        if purpose not in BY_PAYMENT:
            del self.fields["way"]


class VoidForm(WrittenForm):
    """Why a draw is voided, and the seed to draw anew with; without one it is only voided."""

    reason = line(gettext_lazy("Why"), maxlength="500", help_text=gettext_lazy("Stands in the history for good."))
    seed = line(
        gettext_lazy("New seed"), maxlength="500", help_text=gettext_lazy("Blank: void it only, and draw later.")
    )

    def __init__(self, purpose: str, data: Any = None):
        self.purpose = purpose
        super().__init__(data, prefix=f"{purpose}-void")
