"""Forms of notices, the permit checklist, and a season written down at once."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.events.queries.club_sheets import source_choices
from weighin.records.domain.fields import Field
from weighin.records.forms.declared import DeclaredForm, form_field
from weighin.records.forms.written import Written, line
from weighin.schedule.domain.faults import NOTICE_WITHOUT_WHY
from weighin.schedule.domain.fields import PERMIT_LINE
from weighin.schedule.domain.kinds import AnyDate
from weighin.schedule.models import Notice, PermitLine
from weighin.schedule.services.calling_off import LONGEST_REASON
from weighin.schedule.services.permits import PERMIT_LINE_RECORD
from weighin.ui.forms.service import ServiceForm


@form_field.register
def _date(kind: AnyDate, field: Field) -> Written:
    return line(field.label, help_text=field.help, type="date")


class CallOffForm(ServiceForm):
    """What becomes of the event, why, and its new first day."""

    use_required_attribute = False

    kind = forms.ChoiceField(label=gettext_lazy("The event"), widget=forms.RadioSelect)
    to = forms.DateField(
        label=gettext_lazy("New first day"),
        required=False,
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
        help_text=gettext_lazy("When it is postponed. Blank: not known yet. All days keep their distance from it."),
    )
    reason = line(
        gettext_lazy("Reason"),
        maxlength=str(LONGEST_REASON),
        help_text=gettext_lazy("The teams read it, and so does everyone where the club or the event is public."),
    )

    def __init__(self, *args: Any, called_off: bool, cancelled: bool, **kwargs: Any):
        super().__init__(*args, **kwargs)
        choices = [] if cancelled else [(Notice.Kind.CANCELLED, gettext_lazy("is cancelled"))]
        choices.append((Notice.Kind.POSTPONED, gettext_lazy("is postponed")))
        if called_off:
            choices.append((Notice.Kind.TAKES_PLACE, gettext_lazy("takes place after all")))
        self.fields["kind"].choices = choices  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """Says that the reason is missing beside what cannot be read; the service says it beside everything else."""
        if self.errors and not self.cleaned_data.get("reason"):
            self.add_faults([NOTICE_WITHOUT_WHY.at("reason")])
        return self.cleaned_data


class PermitLineForm(DeclaredForm):
    """A line of the permit checklist."""

    declared = PERMIT_LINE

    def __init__(self, data: Any = None, *, old: PermitLine | None = None):
        super().__init__(data, initial=PERMIT_LINE_RECORD.texts(old) if old else {})

    def texts(self, data: dict[str, Any]) -> dict[str, str]:
        """What the reader reads."""
        return {field.name: str(data.get(field.name) or "") for field in PERMIT_LINE}


class SeasonEventsForm(ServiceForm):
    """Several events, one on each line."""

    season = forms.ModelChoiceField(Season.objects.none(), label=gettext_lazy("Season"))
    source = forms.ChoiceField(
        label=gettext_lazy("Set up like"),
        help_text=gettext_lazy(
            "An event gives days, times, fees, flights, rules, side pots and permit checklist. A rule sheet gives rules; "
            "times and fee are those of the club’s latest event."
        ),
    )
    lines = Written(
        label=gettext_lazy("Events"),
        strip=False,
        max_length=20_000,
        widget=forms.Textarea(attrs={"rows": 10, "spellcheck": "false"}),
        help_text=gettext_lazy(
            "One on each line: date, name, water. Typed with commas, or pasted from a spreadsheet. A date is typed as Jun 20, 2026."
        ),
    )
    new_waters = forms.BooleanField(label=gettext_lazy("Add waters that the club does not have yet"), required=False)

    def __init__(self, *args: Any, club: Club, **kwargs: Any):
        super().__init__(*args, **kwargs)
        seasons, events = club.seasons.all(), Event.objects.filter(season__club=club)
        self.fields["season"].queryset = seasons  # type: ignore[attr-defined]
        self.fields["season"].initial = seasons.first()
        groups = source_choices(club)
        self.fields["source"].choices = groups[-1:] + groups[:-1] if events.exists() else groups  # type: ignore[attr-defined]
