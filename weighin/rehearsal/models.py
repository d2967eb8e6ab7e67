"""A rehearsal under way: what it was asked for, how far it is, and what came of it."""

from datetime import timedelta

from django.db import models
from django.utils import timezone

from weighin.events.models import Event

SILENT = timedelta(seconds=90)  # one that was not heard of for so long has broken off


class Rehearsal(models.Model):
    """The simulated boats of an event's copy. Written over while they come in, and gone with the copy.

    ``event`` is the copy, ``speed`` how many of its minutes pass in one of the clock's.
    ``report`` is what came of it.
    """

    event = models.OneToOneField(Event, on_delete=models.CASCADE, related_name="rehearsed")
    day = models.PositiveSmallIntegerField()
    seed = models.PositiveBigIntegerField()
    speed = models.FloatField()
    boats = models.PositiveIntegerField()
    begun_by = models.CharField(max_length=150)
    begun_at = models.DateTimeField(default=timezone.now)
    seen_at = models.DateTimeField(default=timezone.now)
    sent = models.PositiveIntegerField(default=0)
    to_send = models.PositiveIntegerField(default=0)
    stop_asked = models.BooleanField(default=False)
    ended_at = models.DateTimeField(null=True, blank=True)
    report = models.JSONField(null=True, blank=True)

    @property
    def goes_on(self) -> bool:
        """Whether boats still come in; not where the process that lets them was not heard of for long."""
        return self.ended_at is None and timezone.now() - self.seen_at < SILENT

    def __str__(self) -> str:
        return f"{self.event}, seed {self.seed}"
