"""What was said in the line, only ever added: bags given and taken back, a hold, the figures it is run by."""

import uuid

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.events.models import Event
from weighin.roster.models import Entry


class LineWord(AppendOnly):
    """One thing said in the line on a day; the last about a boat says where it stands.

    ``id`` is made by the page that said it, so that a button pressed twice says it once. ``at`` is the site's clock.
    """

    class Said(models.TextChoices):
        BAG_ISSUED = "bag_issued", gettext_lazy("Bag given")
        AT_SCALES = "at_scales", gettext_lazy("At the scales")
        BAG_BACK = "bag_back", gettext_lazy("Bag returned unused")
        LEFT = "left", gettext_lazy("Out of the line")
        RETURNED = "returned", gettext_lazy("Back in the line")
        HOLD = "hold", gettext_lazy("Line held")
        OXYGEN = "oxygen", gettext_lazy("Oxygen checked")
        RESUME = "resume", gettext_lazy("Line goes on")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="line_words", db_index=False)
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="line_words", null=True, blank=True)
    day = models.PositiveSmallIntegerField()
    said = models.CharField(max_length=20, choices=Said.choices)
    at = models.DateTimeField(default=timezone.now)
    person = models.CharField(
        max_length=80, blank=True, help_text=gettext_lazy("Who resumes a held line, or resumed it")
    )
    oxygen_minutes = models.PositiveSmallIntegerField(null=True, blank=True)
    note = models.CharField(max_length=500, blank=True)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("word of the line")
        ordering = ("at", "id")
        indexes = (models.Index(fields=("event", "day", "at"), name="words_of_a_days_line"),)

    def __str__(self) -> str:
        return self.get_said_display()


class LineTerms(AppendOnly):
    """The figures an event's line is run by; the last row counts."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="line_terms")
    scales = models.PositiveSmallIntegerField(validators=[MinValueValidator(1), MaxValueValidator(10)])
    bags = models.PositiveSmallIntegerField(validators=[MinValueValidator(1), MaxValueValidator(500)])
    walk_seconds = models.PositiveSmallIntegerField(validators=[MaxValueValidator(3600)])
    boat_seconds = models.PositiveSmallIntegerField(
        validators=[MinValueValidator(10), MaxValueValidator(3600)],
        help_text=gettext_lazy("A boat at one scale, before any is weighed"),
    )
    at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("terms of the line")
        ordering = ("id",)

    def __str__(self) -> str:
        return f"{self.scales} scales, {self.bags} bags"
