"""What is decided about an event before its day: called off, postponed, and what must be asked for, and by when."""

from datetime import date, timedelta

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.events.models import Event


class Notice(AppendOnly):
    """That an event is cancelled, is postponed, or takes place after all; the last one counts.

    ``was`` is the first day of before, ``to`` the new one; None while nobody knows it yet.
    """

    class Kind(models.TextChoices):
        CANCELLED = "cancelled", gettext_lazy("Cancelled")
        POSTPONED = "postponed", gettext_lazy("Postponed")
        TAKES_PLACE = "takes_place", gettext_lazy("Takes place after all")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="notices")
    kind = models.CharField(max_length=12, choices=Kind.choices)
    reason = models.CharField(max_length=300)
    was = models.DateField()
    to = models.DateField(null=True, blank=True)
    at = models.DateTimeField(default=timezone.now)
    by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("notice to the teams")
        verbose_name_plural = gettext_lazy("notices to the teams")
        ordering = ("id",)

    def __str__(self) -> str:
        return f"{self.event}: {self.get_kind_display()}"


class PermitLine(models.Model):
    """Something to ask for, reserve or settle before an event, so many days before its first."""

    event = models.ForeignKey(Event, on_delete=models.CASCADE, related_name="permit_lines")
    what = models.CharField(max_length=200)
    days_before = models.PositiveIntegerField()
    who = models.CharField(max_length=120, blank=True)
    done_on = models.DateField(null=True, blank=True)
    done_by = models.CharField(max_length=120, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        verbose_name = gettext_lazy("line of the permit checklist")
        ordering = ("-days_before", "id")

    def __str__(self) -> str:
        return self.what

    @property
    def due(self) -> date:
        """The date by which it should be done, counted back from the event's first day."""
        return self.event.date - timedelta(days=self.days_before)
