"""Draws: of boat numbers, launch order, flights and lots. They are only ever added, and voided by another row."""

import uuid

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.events.models import Event
from weighin.records.models import CurrentQuerySet


class Draw(AppendOnly):
    """A draw, and what it gave; as a void it takes back what the one that it ``replaces`` gave.

    ``order`` holds a row for each team: entry, team, hash, result. ``were`` is what these entries had before, by their
    numbers, to be given back. A draw that nothing replaces, and that is no void, stands.
    """

    class Purpose(models.TextChoices):
        BOATS = "boats", gettext_lazy("Boat numbers")
        LAUNCH = "launch", gettext_lazy("Launch order")
        FLIGHTS = "flights", gettext_lazy("Flights")
        LOTS = "lots", gettext_lazy("Lots for ties")

    class Way(models.TextChoices):
        SEED = "seed", gettext_lazy("By lot")
        PAYMENT = "payment", gettext_lazy("First paid, first out")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="draws", db_index=False)
    number = models.PositiveIntegerField()
    purpose = models.CharField(max_length=10, choices=Purpose.choices)
    way = models.CharField(max_length=10, choices=Way.choices)
    seed = models.CharField(max_length=500, blank=True)
    order = models.JSONField(default=list)
    were = models.JSONField(default=dict)
    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    reason = models.CharField(max_length=500, blank=True)
    void = models.BooleanField(default=False)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    objects = CurrentQuerySet.as_manager()  # type: ignore[misc]
    PLACE = "number"

    class Meta:
        verbose_name = gettext_lazy("draw")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_draw_of_a_number"),)

    def __str__(self) -> str:
        return f"Draw {self.number}"


class DrawsShown(AppendOnly):
    """Whether the public sees the draws of an event; the last row counts."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="draws_shown")
    shown = models.BooleanField()
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("showing of draws")
        ordering = ("id",)

    def __str__(self) -> str:
        return "shown" if self.shown else "not shown"
