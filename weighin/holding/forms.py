"""The forms of a holding study: a pen, a look into it, a finished row, and how large the study should be."""

from collections.abc import Mapping
from typing import Any

from django.utils.translation import gettext_lazy

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm
from weighin.holding.domain.faults import STUDY_FIGURE_MISSING, TOO_MANY_PENS
from weighin.holding.domain.fields import Started
from weighin.holding.services.pens import FINISHED_PEN, PEN_CHECK, STUDY_PEN
from weighin.records.domain.fields import Field
from weighin.records.forms.declared import form_field
from weighin.records.forms.written import Written, WrittenForm, count, figure, moment
from weighin.rules import values
from weighin.rules.faults import Faults, Wrong
from weighin.survival.sizes.study_size import MOST_PENS, expected, pens_for_width

BACK = "holding:holding"
MOST_DRAWN = 2000


@form_field.register
def _started(kind: Started, field: Field) -> Written:
    return moment(field.label, help_text=field.help)


class PenForm(RowForm):
    """Fish put into a pen."""

    record = STUDY_PEN
    page = "holding/pen_form.html"
    back = BACK

    def suit(self, care_context: CareContext) -> None:
        self.initial.setdefault("planned_hours", "72")
        self.initial.setdefault("group", care_context.event.name[:80])


class CheckForm(RowForm):
    """A look into a pen: what was found since the look before."""

    record = PEN_CHECK
    page = "holding/check.html"
    back = BACK


class FinishedForm(RowForm):
    """A finished pen written down as a whole, as from a paper sheet."""

    record = FINISHED_PEN
    page = "holding/record.html"
    back = BACK


class EndForm(WrittenForm):
    """Ending a pen asks for nothing but the act."""


class SizeForm(WrittenForm):
    """What a study should be able to tell, and the draw of its boats. All in the address, nothing kept."""

    delayed = figure(
        gettext_lazy("Deaths expected after release"),
        unit="%",
        help_text=gettext_lazy("Of fish that swam off. Unknown for crappie: try several."),
    )
    reference = figure(gettext_lazy("Deaths of reference fish expected"), unit="%")
    width = figure(
        gettext_lazy("Range wanted, from low to high"),
        unit=gettext_lazy("points"),
        help_text=gettext_lazy("30: such as from 8 to 38 %."),
    )
    fish = count(gettext_lazy("Fish in a pen"), unit=gettext_lazy("fish"))
    correlation = figure(
        gettext_lazy("How alike fish of one pen fare"),
        help_text=gettext_lazy("0 not at all, 1 wholly; 0.05 unless you know better."),
    )

    FIRST = {"delayed": "20", "reference": "5", "width": "30", "fish": "20", "correlation": "0.05"}

    def sized(self) -> dict[str, Any] | None:
        """Pens of each kind for the width wanted and for others, and what three would tell; None with faults."""
        return self.__dict__["kept"] if self.attempt(size_of) else None


def size_of(written: Mapping[str, str]) -> dict[str, Any]:
    """The size of a study from the form's texts. Raises Faults with field names."""
    limits = {"delayed": (0, 90), "reference": (0, 90), "width": (1, 99), "fish": (1, 1000), "correlation": (0, 1)}
    found: dict[str, float] = {}
    faults = []
    for name, (least, most) in limits.items():
        try:
            text = str(written.get(name, "")).strip()
            if not text:
                raise STUDY_FIGURE_MISSING.wrong()
            found[name] = float(values.decimal(text, least=least, most=most))
        except Wrong as error:
            faults.append(error.at(name))
    if faults:
        raise Faults(faults)
    plan = {
        "delayed": found["delayed"] / 100,
        "reference": found["reference"] / 100,
        "fish_per_pen": found["fish"],
        "correlation": found["correlation"],
    }
    try:
        pens = pens_for_width(width=found["width"] / 100, **plan)
    except ValueError:
        raise Faults([TOO_MANY_PENS.at("width", most=MOST_PENS)]) from None
    return {
        "pens": pens,
        "fish": int(pens * found["fish"]),
        "width": found["width"],
        "expected": expected(pens=pens, **plan),
        "least": expected(pens=3, **plan),
    }
