"""The form that takes a workbook."""

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from weighin.operations.workbook.book import MOST_BYTES


class WorkbookForm(forms.Form):
    """An event workbook to look at before it is brought in."""

    workbook = forms.FileField(
        label="Event workbook",
        help_text="An .xlsx file of at most 10 MB with the sheets Event, Rules, Teams, Slips and so on.",
        widget=forms.FileInput(attrs={"accept": ".xlsx"}),
    )

    def clean_workbook(self) -> Any:
        file: UploadedFile = self.cleaned_data["workbook"]
        if not (file.name or "").lower().endswith(".xlsx"):
            raise forms.ValidationError(f"{file.name} is not an .xlsx workbook: save it as .xlsx and choose it again.")
        if (file.size or 0) > MOST_BYTES:
            raise forms.ValidationError(f"{file.name} is larger than 10 MB: take pictures and other sheets out.")
        return file
