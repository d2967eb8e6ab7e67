"""The form that takes a workbook, and the one that publishes or closes."""

from collections.abc import Sequence
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy

from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.operations.queries.open_questions import Question
from weighin.schedule.queries.suggestions import next_date, next_name
from weighin.ui.forms.service import ServiceForm
from weighin.workbooks.parsing.book import MOST_BYTES


class WorkbookForm(forms.Form):
    """An event workbook to look at before it is brought in."""

    workbook = forms.FileField(
        label=gettext_lazy("Event workbook"),
        help_text=gettext_lazy("An .xlsx file of at most 10 MB with the sheets Event, Rules, Teams, Slips and so on."),
        widget=forms.FileInput(attrs={"accept": ".xlsx"}),
    )

    def clean_workbook(self) -> Any:
        file: UploadedFile[bytes] = self.cleaned_data["workbook"]
        if not (file.name or "").lower().endswith(".xlsx"):
            raise forms.ValidationError(
                gettext("%(name)s is not an .xlsx workbook: save it as .xlsx and choose it again.")
                % {"name": file.name}
            )
        if (file.size or 0) > MOST_BYTES:
            raise forms.ValidationError(
                gettext("%(name)s is larger than 10 MB: delete pictures and other sheets.") % {"name": file.name}
            )
        return file


class NextEventForm(ServiceForm):
    """What the next event is called and when it begins."""

    name = forms.CharField(label=gettext_lazy("Event"), max_length=120, help_text=gettext_lazy("As results show it."))
    season = forms.ModelChoiceField(Season.objects.none(), label=gettext_lazy("Season"))
    date = forms.DateField(
        label=gettext_lazy("First day"),
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
        help_text=gettext_lazy("All days keep their distance from it."),
    )

    def __init__(self, *args: Any, event: Event, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["season"].queryset = event.club.seasons.all()  # type: ignore[attr-defined]
        self.fields["season"].initial = event.season
        self.fields["name"].initial = next_name(event)
        today = timezone.now().astimezone(ZoneInfo(event.time_zone)).date()
        self.fields["date"].initial = next_date(event, today)


class OpenQuestionsForm(ServiceForm):
    """A reason for every open question that may be overruled, and a word that this is meant.

    ``questions`` are those that stand open; ``sure`` says what the person confirms; ``later`` asks why there is another
    version.
    """

    reason = forms.CharField(
        required=False,
        max_length=500,
        label=gettext_lazy("Why there is a new version"),
        help_text=gettext_lazy("It stands on the public page."),
    )
    sure = forms.BooleanField(error_messages={"required": gettext_lazy("Check this box to go on.")})

    def __init__(self, *args: Any, questions: Sequence[Question], sure: str, later: bool = False, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.questions = questions
        for question in questions:
            if not question.must_settle:
                self.fields[question.key] = forms.CharField(
                    required=False,
                    max_length=500,
                    label=f"{question.words} " + gettext("Why it may stay open"),
                )
        self.fields["sure"].label = sure
        if later:
            # Sent blank, the service says what is wrong: no reason, or nothing to publish as after a second press
            self.fields["reason"].required = not self.is_bound
        else:
            del self.fields["reason"]

    def clean(self) -> dict[str, Any]:
        for question in self.questions:
            if not question.must_settle and not self.cleaned_data.get(question.key, "x").strip():
                self.add_error(question.key, gettext("Settle it, or give a reason here."))
        if "reason" in self.fields:
            self.fields["reason"].required = True
            if self.errors and not self.cleaned_data.get("reason", "x"):
                self.add_error("reason", gettext("Give the reason for the new version."))
        return self.cleaned_data

    @property
    def by_day(self) -> list[tuple[int | None, list[tuple[Question, forms.BoundField | None]]]]:
        """The questions by day, each with the field that takes its reason; None where it must be settled."""
        found: dict[int | None, list[tuple[Question, forms.BoundField | None]]] = {}
        for question in self.questions:
            field = None if question.must_settle else self[question.key]
            found.setdefault(question.day, []).append((question, field))
        return list(found.items())

    @property
    def must_settle(self) -> bool:
        """Whether a question stands open that no reason overrules."""
        return any(question.must_settle for question in self.questions)

    def overruled(self) -> dict[str, str]:
        """The reasons given, by the question's key."""
        return {q.key: self.cleaned_data.get(q.key, "") for q in self.questions}
