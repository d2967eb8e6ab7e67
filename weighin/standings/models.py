"""Official results: frozen, numbered, never changed."""

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.events.models import Event


class OfficialResult(AppendOnly):
    """A version of an event's official result: rules, standings and purse as they stood, with the slips' chain head.

    A later correction makes the next version, with a reason; every version stays readable. ``stage`` says after which
    day it stands when the event's last was not over (``after day 1 of 2``), empty otherwise; ``overruled`` holds every
    open question that it was published over: code, day, question, reason; null, and the stage unknown, in versions that
    are older than these fields.
    """

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="official_results")
    version = models.PositiveIntegerField()
    published_at = models.DateTimeField(default=timezone.now)
    published_by = models.CharField(max_length=150)
    reason = models.CharField(max_length=500, blank=True)
    ledger_length = models.PositiveIntegerField()
    ledger_head = models.CharField(max_length=64)
    stage = models.CharField(max_length=120, blank=True, default="")
    overruled = models.JSONField(null=True, blank=True)
    document = models.JSONField()

    class Meta:
        verbose_name = gettext_lazy("official result")
        ordering = ("-version",)
        constraints = (models.UniqueConstraint(fields=("event", "version"), name="one_result_a_version"),)

    def __str__(self) -> str:
        return f"Official result {self.version} of {self.event}"


class Holdback(AppendOnly):
    """A word on what the crowd may see: places as they were at ``since``, or, where that is blank, everything again.

    The newest word of an event counts. Where its moment had come when it was said, ``ends`` are the last places of the
    event's rows by then: slips, check-ins, history.
    """

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="holdbacks")
    since = models.DateTimeField(null=True, blank=True)
    ends = models.JSONField(null=True, blank=True)
    said_at = models.DateTimeField(default=timezone.now)
    by = models.CharField(max_length=150)

    class Meta:
        ordering = ("-id",)

    def __str__(self) -> str:
        return f"{self.event}: held back since {self.since}" if self.since else f"{self.event}: held back no more"
