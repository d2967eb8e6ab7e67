"""The form that takes a list of teams."""

from django import forms
from django.utils.translation import gettext_lazy


class TeamListForm(forms.Form):
    """A list as a file, or pasted; a chosen file goes before what is pasted."""

    file = forms.FileField(
        label=gettext_lazy("Or choose a file"),
        required=False,
        allow_empty_file=True,
        help_text=gettext_lazy("An .xlsx workbook or a CSV file, at most 5,000 teams and 5 MB."),
        widget=forms.FileInput(attrs={"accept": ".xlsx,.csv,.txt,.tsv"}),
    )
    text = forms.CharField(
        label=gettext_lazy("Paste the list"),
        required=False,
        strip=False,
        help_text=gettext_lazy("Copy the cells in your spreadsheet, headings too, and paste them here."),
        widget=forms.Textarea(attrs={"rows": 12, "wrap": "off", "spellcheck": "false", "autocomplete": "off"}),
    )
    namesakes = forms.BooleanField(
        label=gettext_lazy("Anglers of the same name in two teams are two people"), required=False
    )
