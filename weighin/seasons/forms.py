"""Forms of a season: its series, and the classes of a team."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from weighin.clubs.models import Season
from weighin.roster.models import Entry
from weighin.seasons.models import ClassMark, Series
from weighin.seasons.services.series import LONGEST_NAME
from weighin.ui import figures
from weighin.ui.forms.service import ServiceForm


class SeriesForm(ServiceForm):
    """A series' name, its events, and terms of its own."""

    name = forms.CharField(
        label=gettext_lazy("Name"),
        max_length=LONGEST_NAME,
        help_text=gettext_lazy("Such as Night series or Couples."),
    )
    events = forms.MultipleChoiceField(label=gettext_lazy("Events"), widget=forms.CheckboxSelectMultiple)
    count_best = forms.CharField(
        label=gettext_lazy("Best events counted"),
        max_length=10,
        required=False,
        help_text=gettext_lazy("A number, or none for all events. Blank: as in the season."),
    )
    ties = forms.CharField(
        label=gettext_lazy("Ties"),
        max_length=80,
        required=False,
        help_text=gettext_lazy("big_fish, total_weight or share, in order, with commas. Blank: as in the season."),
    )

    def __init__(self, *args: Any, season: Season, old: Series | None = None, **kwargs: Any):
        if old is not None:
            kwargs["initial"] = {
                "name": old.name,
                "events": list(old.parts.values_list("event__slug", flat=True)),
                "count_best": old.count_best,
                "ties": old.ties,
            }
        super().__init__(*args, **kwargs)
        events = season.events.order_by("date", "pk")
        named = [(event.slug, f"{figures.short_day(event.date)}, {event.name}") for event in events]
        self.fields["events"].choices = named  # type: ignore[attr-defined]
        self._ask(True)

    def full_clean(self) -> None:
        """The service says what is missing, beside all else that is wrong; the page says what it needs."""
        self._ask(False)
        super().full_clean()
        self._ask(True)

    def _ask(self, needed: bool) -> None:
        for name in ("name", "events"):
            self.fields[name].required = needed


class ClassesForm(ServiceForm):
    """At which of its events a team is in each class."""

    def __init__(self, *args: Any, entries: Sequence[Entry], **kwargs: Any):
        super().__init__(*args, **kwargs)
        marks = ClassMark.objects.filter(entry__in=entries)
        there = [(mark.name, mark.entry_id) for mark in marks]
        for name, label in ClassMark.Name.choices:
            self.fields[name] = forms.TypedMultipleChoiceField(
                label=label,
                required=False,
                coerce=int,
                widget=forms.CheckboxSelectMultiple,
                choices=[(entry.pk, entry.event.name) for entry in entries],
                initial=[entry for of, entry in there if of == name],
            )
