"""Scales, their checks with test weights, and the lines that readings came from."""

import uuid

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy

from weighin.audit.models import AppendOnly, AppendOnlyQuerySet
from weighin.events.models import Event


class Scale(models.Model):
    """A scale at an event's table: its division, and how its indicator speaks.

    ``unit`` is the event's when the scale was written down; ``division`` is written in it, an event in pounds and
    ounces too (``0-00.5``). ``layout`` names one of ``domain.layouts``, or is ``own`` and ``pattern`` says it.
    ``stations`` are the names of the stations whose slips come from it, separated by commas.
    """

    class Parity(models.TextChoices):
        NONE = "N", gettext_lazy("None")
        EVEN = "E", gettext_lazy("Even")
        ODD = "O", gettext_lazy("Odd")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="scales")
    name = models.CharField(max_length=40)
    made_by = models.CharField(max_length=120, blank=True, help_text=gettext_lazy("Maker and number"))
    unit = models.CharField(max_length=5)
    division = models.CharField(max_length=40)
    new = models.BooleanField(default=False, help_text=gettext_lazy("Acceptance tolerance"))
    in_use = models.BooleanField(default=True)
    stations = models.CharField(max_length=400, blank=True)

    layout = models.CharField(max_length=20, blank=True)
    pattern = models.CharField(max_length=200, blank=True)
    ask = models.CharField(
        max_length=10, blank=True, help_text=gettext_lazy("What it must be sent before it says its weight")
    )
    baud = models.PositiveIntegerField(default=9600)
    data_bits = models.PositiveSmallIntegerField(default=8)
    parity = models.CharField(max_length=1, choices=Parity.choices, default=Parity.NONE)
    stop_bits = models.PositiveSmallIntegerField(default=1)

    class Meta:
        ordering = ("name",)
        constraints = (models.UniqueConstraint(fields=("event", "name"), name="one_scale_of_a_name"),)

    def __str__(self) -> str:
        return self.name

    @property
    def station_names(self) -> list[str]:
        """The stations whose slips come from it."""
        return [name.strip() for name in self.stations.split(",") if name.strip()]


class ScaleNow(models.Model):
    """The last word of a scale that speaks over its line: written over again and again, part of no record."""

    scale = models.OneToOneField(Scale, on_delete=models.CASCADE, related_name="now", primary_key=True)
    state = models.CharField(max_length=20)
    text = models.CharField(max_length=40, blank=True)
    unit = models.CharField(max_length=10, blank=True)
    raw = models.CharField(max_length=200, blank=True)
    at = models.DateTimeField(default=timezone.now)
    told_by = models.CharField(max_length=150)

    def __str__(self) -> str:
        return f"{self.scale}: {self.text or self.state}"


class CurrentChecks(AppendOnlyQuerySet):
    def current(self) -> "CurrentChecks":
        """Checks that were not taken out."""
        return self.filter(replaced_by__isnull=True, void=False)


class ScaleCheck(AppendOnly):
    """A test weight laid on a scale and what it showed. ``void`` takes the check out that it ``replaces``.

    Unit, division and kind of tolerance are those of the scale when it was tested.
    """

    class Moment(models.TextChoices):
        BEFORE = "before", gettext_lazy("Before the weigh-in")
        DURING = "during", gettext_lazy("During the weigh-in")
        AFTER = "after", gettext_lazy("After the weigh-in")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    scale = models.ForeignKey(Scale, on_delete=models.PROTECT, related_name="checks")
    moment = models.CharField(max_length=10, choices=Moment.choices)
    at = models.DateTimeField()
    test_weight = models.CharField(max_length=40)
    shown = models.CharField(max_length=40)
    unit = models.CharField(max_length=5)
    division = models.CharField(max_length=40)
    new = models.BooleanField(default=False)
    tested_by = models.CharField(max_length=120)
    note = models.CharField(max_length=500, blank=True)

    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    reason = models.CharField(max_length=500, blank=True)
    void = models.BooleanField(default=False)

    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    objects = CurrentChecks.as_manager()  # type: ignore[misc]

    class Meta:
        verbose_name = gettext_lazy("scale check")
        ordering = ("at", "received_at")

    def __str__(self) -> str:
        return f"{self.test_weight} {self.unit} on {self.scale}"


class ScaleReading(AppendOnly):
    """The line of a scale that a weight of a slip was taken from.

    ``slip_id`` is the slip's id and no foreign key: a reading may come before its slip. ``field`` is the slip's field,
    ``largest_1`` … for the largest fish.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="scale_readings")
    scale = models.ForeignKey(Scale, on_delete=models.PROTECT, null=True, blank=True, related_name="readings")
    slip_id = models.UUIDField(db_index=True)
    field = models.CharField(max_length=20)
    text = models.CharField(max_length=40)
    unit = models.CharField(max_length=5)
    raw = models.CharField(max_length=200)
    taken_at = models.DateTimeField()
    sent_at = models.DateTimeField(null=True, blank=True)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("reading of a scale")
        ordering = ("taken_at", "id")

    def __str__(self) -> str:
        return f"{self.text} {self.unit}"

    @property
    def part(self) -> str:
        """The weight it is, in words."""
        words = {"gross": gettext("Weight"), "tare": gettext("Bag"), "big_fish": gettext("Big fish")}
        return words.get(self.field) or self.field.replace("_", " fish ").capitalize()
