"""Series, events of a season whose points are added up by themselves; and the classes of teams."""

from django.db import models
from django.utils.translation import gettext_lazy

from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.roster.models import Entry


class Series(models.Model):
    """Some of a season's events under a name. Blank ``count_best`` and ``ties`` are the season's; ``none`` counts all."""

    season = models.ForeignKey(Season, on_delete=models.PROTECT, related_name="series")
    name = models.CharField(max_length=80)
    slug = models.SlugField(max_length=80)
    count_best = models.CharField(max_length=20, blank=True)
    ties = models.CharField(max_length=80, blank=True)

    class Meta:
        verbose_name_plural = gettext_lazy("series")
        ordering = ("name",)
        constraints = (
            models.UniqueConstraint(fields=("season", "name"), name="one_series_of_a_name"),
            models.UniqueConstraint(fields=("season", "slug"), name="one_series_of_a_slug"),
        )

    def __str__(self) -> str:
        return self.name


class ClassMark(models.Model):
    """A team is in a class at one event, beside the youth that the roster knows."""

    class Name(models.TextChoices):
        COUPLES = "couples", gettext_lazy("Couples")
        CLUB_ONLY = "club_only", gettext_lazy("Club members only")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="class_marks")
    entry = models.ForeignKey(Entry, on_delete=models.CASCADE, related_name="class_marks")
    name = models.CharField(max_length=20, choices=Name.choices)

    class Meta:
        verbose_name = gettext_lazy("class mark")
        verbose_name_plural = gettext_lazy("class marks")
        constraints = (models.UniqueConstraint(fields=("entry", "name"), name="one_mark_a_class"),)

    def __str__(self) -> str:
        return f"{self.entry}: {self.get_name_display()}"


class SeriesEvent(models.Model):
    """An event that counts in a series."""

    series = models.ForeignKey(Series, on_delete=models.CASCADE, related_name="parts")
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="series_parts")

    class Meta:
        constraints = (models.UniqueConstraint(fields=("series", "event"), name="an_event_once_a_series"),)

    def __str__(self) -> str:
        return f"{self.event} in {self.series}"
