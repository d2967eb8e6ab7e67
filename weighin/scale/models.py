"""Weigh slips: only ever added, chained per event, corrected by new slips."""

import uuid

from django.db import models
from django.utils import timezone

from weighin.audit.models import AppendOnly, AppendOnlyQuerySet
from weighin.events.models import Event
from weighin.roster.models import Entry


class WeighSlipQuerySet(AppendOnlyQuerySet):
    def current(self) -> "WeighSlipQuerySet":
        """Slips that nothing replaces and that are no voids."""
        return self.filter(replaced_by__isnull=True, void=False)


class WeighSlip(AppendOnly):
    """What the table saw of one team on one day, as the scale showed it.

    Weights are kept as written in the event's unit; an empty text is "not recorded". A correction is a new slip
    that ``replaces`` one; a ``void`` takes the slip it replaces out. ``position`` and ``link`` are the event's hash chain.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="slips")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="slips")
    number = models.PositiveIntegerField()
    day = models.PositiveSmallIntegerField()

    fish = models.PositiveIntegerField(default=0)
    alive = models.PositiveIntegerField(default=0)
    dead = models.PositiveIntegerField(default=0)
    short = models.PositiveIntegerField(default=0)
    gross = models.CharField(max_length=40, blank=True)
    tare = models.CharField(max_length=40, blank=True)
    big_fish = models.CharField(max_length=40, blank=True)
    big_fish_alive = models.BooleanField(null=True, blank=True)
    largest_weights = models.CharField(max_length=500, blank=True)
    black_crappie = models.PositiveIntegerField(null=True, blank=True)
    white_crappie = models.PositiveIntegerField(null=True, blank=True)
    other_species = models.PositiveIntegerField(null=True, blank=True)
    well_boat = models.PositiveIntegerField(null=True, blank=True)

    checked_in = models.DateTimeField(null=True, blank=True)
    minutes_late = models.PositiveIntegerField(null=True, blank=True)
    excused_minutes = models.CharField(max_length=40, blank=True)
    bag_issued = models.DateTimeField(null=True, blank=True)
    weighed = models.DateTimeField(null=True, blank=True)
    bag_emptied = models.DateTimeField(null=True, blank=True)
    released = models.DateTimeField(null=True, blank=True)
    dead_at_release = models.PositiveIntegerField(default=0)
    kept = models.PositiveIntegerField(default=0)

    extra_penalty = models.CharField(max_length=40, blank=True)
    extra_penalty_reason = models.CharField(max_length=500, blank=True)
    disqualified_reason = models.CharField(max_length=500, blank=True)
    official = models.CharField(max_length=500, blank=True)
    note = models.CharField(max_length=500, blank=True)

    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    reason = models.CharField(max_length=500, blank=True)
    void = models.BooleanField(default=False)

    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)
    position = models.PositiveIntegerField()
    link = models.CharField(max_length=64)

    objects = WeighSlipQuerySet.as_manager()  # type: ignore[misc]

    class Meta:
        verbose_name = "weigh slip"
        ordering = ("position",)
        constraints = (
            models.UniqueConstraint(fields=("event", "number"), name="one_slip_of_a_number"),
            models.UniqueConstraint(fields=("event", "position"), name="one_slip_a_position"),
        )
        indexes = (models.Index(fields=("event", "entry", "day"), name="slips_of_a_boat_and_day"),)

    def __str__(self) -> str:
        return f"Slip {self.number}"
