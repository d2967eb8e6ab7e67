"""The forms of a holding study: a pen, a look into it, a finished row, and how large the study should be."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm, moment_fields, shows
from weighin.holding.domain.faults import STUDY_FIGURE_MISSING, TOO_MANY_PENS
from weighin.holding.models import HoldingPen
from weighin.records.forms.written import Written, WrittenForm, choice, count, figure, line
from weighin.rules import values
from weighin.rules.faults import Faults, Wrong
from weighin.survival.sizes.study_size import MOST_PENS, expected, pens_for_width

KINDS = list(HoldingPen.Kind.choices)
MOST_DRAWN = 2000


class PenForm(RowForm):
    """Fish put into a pen."""

    moments = ("started",)

    kind = choice(gettext_lazy("Which fish"), KINDS)
    pen = line(gettext_lazy("Pen"), maxlength="80", help_text=gettext_lazy("The number on it."))
    group = line(
        gettext_lazy("Study"),
        maxlength="80",
        help_text=gettext_lazy("Pens of one study have one name, such as the day."),
    )
    held = count(gettext_lazy("Fish put in"), unit="fish", help_text=gettext_lazy("Living ones, counted twice."))
    planned_hours = count(gettext_lazy("Watched for"), unit="hours")
    started_date, started_time = moment_fields(gettext_lazy("Put in, date"), gettext_lazy("Put in, time"))
    species = line(gettext_lazy("Species"), maxlength="80")
    source = line(
        gettext_lazy("Where from"),
        maxlength="200",
        help_text=gettext_lazy("How they were drawn; for reference fish, how they were caught."),
    )
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))

    def suit(self, care_context: CareContext) -> None:
        self.initial.setdefault("planned_hours", "72")
        self.initial.setdefault("group", care_context.event.name[:80])


class CheckForm(RowForm):
    """A look into a pen: what was found since the look before."""

    moments = ("at",)
    temperatures = ("water_temp",)

    dead = count(
        gettext_lazy("Dead"),
        unit="fish",
        help_text=gettext_lazy("Since the last look; take them out. 0 when there is none."),
    )
    missing = count(gettext_lazy("Missing"), unit="fish", help_text=gettext_lazy("Counted in, not to be found."))
    escaped = count(
        gettext_lazy("Escaped"), unit="fish", help_text=gettext_lazy("Seen to get out, or a hole was found.")
    )
    at_date, at_time = moment_fields(gettext_lazy("Looked at, date"), gettext_lazy("Looked at, time"))
    water_temp = figure(gettext_lazy("Water in the pen"))
    shows = shows()
    do = figure(gettext_lazy("Oxygen in the pen"), unit="mg/L")
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))


class RecordForm(RowForm):
    """A finished pen written down as a whole, as from a paper sheet."""

    temperatures = ("water_temp",)

    kind = choice(gettext_lazy("Which fish"), KINDS)
    group = line(gettext_lazy("Study"), maxlength="80")
    pen = line(gettext_lazy("Pen"), maxlength="80")
    held = count(gettext_lazy("Fish put in"), unit="fish")
    dead = count(gettext_lazy("Dead"), unit="fish")
    missing = count(gettext_lazy("Missing or escaped"), unit="fish")
    hours = figure(
        gettext_lazy("Watched for"), unit="hours", help_text=gettext_lazy("Up to the last look, not what was planned.")
    )
    started = line(gettext_lazy("Put in"), maxlength="40", help_text=gettext_lazy("A date, such as 2026-06-20 15:30."))
    species = line(gettext_lazy("Species"), maxlength="80")
    source = line(gettext_lazy("Where from"), maxlength="200")
    water_temp = figure(gettext_lazy("Water in the pen"))
    shows = shows()
    note = Written(label=gettext_lazy("Note"), widget=forms.Textarea(attrs={"rows": 2, "maxlength": "500"}))

    @classmethod
    def as_written(cls, row: Any, care_context: CareContext) -> dict[str, str]:
        return {**super().as_written(row, care_context), "started": row.started}


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
        unit="points",
        help_text=gettext_lazy("30: such as from 8 to 38 %."),
    )
    fish = count(gettext_lazy("Fish in a pen"), unit="fish")
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
