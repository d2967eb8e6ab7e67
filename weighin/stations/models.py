"""Stations: tablets, second scales and scripts that may write to one event."""

from django.db import models
from django.utils import timezone

from weighin.events.models import Event


class Station(models.Model):
    """A tablet, a second scale or a script that may write to one event. Of its token only the digest is kept."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="stations")
    name = models.CharField(max_length=80)
    token_digest = models.CharField(max_length=64, unique=True)
    can = models.CharField(max_length=40)
    made_at = models.DateTimeField(default=timezone.now)
    made_by = models.CharField(max_length=150)
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawn_by = models.CharField(max_length=150, blank=True)

    class Meta:
        ordering = ("name", "made_at")
        constraints = (
            models.UniqueConstraint(
                fields=("event", "name"),
                condition=models.Q(withdrawn_at__isnull=True),
                name="one_live_station_of_a_name",
            ),
        )

    def __str__(self) -> str:
        return self.name

    @property
    def cans(self) -> frozenset[str]:
        """What it may do: ``weigh``, ``checkin``, ``care``."""
        return frozenset(self.can.split(","))
