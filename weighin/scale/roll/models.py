"""The notice that moved a day's due times."""

import uuid

from django.db import models
from django.utils import timezone

from weighin.audit.models import AppendOnly
from weighin.events.models import Event


class DueNotice(AppendOnly):
    """One act that moved every due time of a day, with the word that went out to the boats.

    ``moved`` holds the clock before and after by flight (empty name: boats of no flight), as ``HH:MM:SS`` texts.
    A notice is never taken back: another one moves the times again.
    """

    class How(models.TextChoices):
        HORN = "horn", "Horn"
        RADIO = "radio", "Radio"
        PHONE = "phone", "Telephone"
        BOAT = "boat", "By boat"
        BOARD = "board", "On the board"

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="due_notices")
    number = models.PositiveIntegerField()
    day = models.PositiveSmallIntegerField()
    moved = models.JSONField(default=dict)
    shortened = models.BooleanField(default=False)
    given_at = models.DateTimeField(help_text="When the boats were told")
    given_by = models.CharField(max_length=120)
    how = models.CharField(max_length=10, choices=How.choices)
    reason = models.CharField(max_length=500)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = "due notice"
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_due_notice_of_a_number"),)

    def __str__(self) -> str:
        return f"Notice {self.number}"
