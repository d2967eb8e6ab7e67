"""Fish-care notes a team and day, tank readings, and holding studies.

Measured figures and temperatures are kept as written; an empty text is "not recorded".
"""

import uuid

from django.db import models

from weighin.events.models import Event
from weighin.roster.models import Entry


class CareNote(models.Model):
    """How a team kept its fish on one day."""

    class Aeration(models.TextChoices):
        RECIRCULATED = "recirculated", "Recirculated"
        PUMPED = "pumped", "Pumped from the lake"
        OXYGEN = "oxygen", "Oxygen"
        NONE = "none", "None"

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="care_notes")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="care_notes")
    day = models.PositiveSmallIntegerField()
    pump_ok = models.BooleanField(null=True, blank=True)
    aeration = models.CharField(max_length=20, choices=Aeration.choices, blank=True)
    livewell_gal = models.CharField(max_length=40, blank=True)
    ice_lb = models.CharField(max_length=40, blank=True)
    thermometer_ok = models.BooleanField(null=True, blank=True)
    launched = models.DateTimeField(null=True, blank=True)
    first_fish = models.DateTimeField(null=True, blank=True)
    livewell_temp = models.CharField(max_length=20, blank=True)
    livewell_do = models.CharField(max_length=40, blank=True)
    most_on_board = models.PositiveIntegerField(null=True, blank=True)
    deep_hooked = models.PositiveIntegerField(null=True, blank=True)
    barotrauma = models.PositiveIntegerField(null=True, blank=True)
    reflexes_absent = models.PositiveIntegerField(null=True, blank=True)
    reflexes_checked = models.PositiveIntegerField(null=True, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("day", "entry__boat")
        constraints = (models.UniqueConstraint(fields=("entry", "day"), name="one_note_a_boat_and_day"),)

    def __str__(self) -> str:
        return f"Care note of {self.entry}, day {self.day}"


class TankReading(models.Model):
    """One reading of a holding tank."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="tank_readings")
    day = models.PositiveSmallIntegerField()
    tank = models.CharField(max_length=80)
    volume_gal = models.CharField(max_length=40, blank=True)
    time = models.DateTimeField()
    temp = models.CharField(max_length=20, blank=True)
    do = models.CharField(max_length=40, blank=True)
    ph = models.CharField(max_length=40, blank=True)
    total_ammonia = models.CharField(max_length=40, blank=True)
    salt_percent = models.CharField(max_length=40, blank=True)
    fish_lb = models.CharField(max_length=40, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("day", "time", "id")

    def __str__(self) -> str:
        return f"{self.tank}, day {self.day}"


class HoldingPen(models.Model):
    """A pen of a delayed-mortality study: fish held some hours after the event, or reference fish beside them."""

    class Kind(models.TextChoices):
        TOURNAMENT = "tournament", "Tournament fish"
        REFERENCE = "reference", "Reference fish"

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="holding_pens")
    group = models.CharField(max_length=80)
    kind = models.CharField(max_length=20, choices=Kind.choices)
    pen = models.CharField(max_length=80, blank=True)
    source = models.CharField(max_length=200, blank=True)
    species = models.CharField(max_length=80, blank=True)
    started = models.CharField(max_length=40, blank=True)
    hours = models.CharField(max_length=40)
    held = models.PositiveIntegerField()
    dead = models.PositiveIntegerField()
    missing = models.PositiveIntegerField(default=0)
    water_temp = models.CharField(max_length=20, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("id",)

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, pen {self.pen or self.pk}"
