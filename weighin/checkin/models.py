"""Lines of the roll, only ever added; and the notices that moved a day's due times."""

import uuid
from datetime import timedelta

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.events.domain.clock import clock_off
from weighin.events.models import Event
from weighin.records.models import Correctable
from weighin.roster.models import Entry


class CheckIn(Correctable):
    """One line of the check-in table's roll: when a boat came in, or the last word of where it is.

    Lines are only added; ``replaces`` corrects one and ``void`` takes one out, as with slips. ``told_at`` is
    the device's clock when a word came, ``checked_in`` when the boat came to the table.
    """

    class Whereabouts(models.TextChoices):
        LAUNCHED = "launched", gettext_lazy("Launched")
        IN_BY_WATER = "in_by_water", gettext_lazy("In by water")
        IN_BY_ROAD = "in_by_road", gettext_lazy("In by road")
        PHONED = "phoned", gettext_lazy("Phoned")
        UNACCOUNTED = "unaccounted", gettext_lazy("Unaccounted for")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="checkins")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="checkins")
    day = models.PositiveSmallIntegerField()

    checked_in = models.DateTimeField(null=True, blank=True)
    minutes_late = models.PositiveIntegerField(null=True, blank=True)
    excused_minutes = models.CharField(max_length=40, blank=True)
    whereabouts = models.CharField(max_length=20, choices=Whereabouts.choices, blank=True)
    word = models.CharField(max_length=500, blank=True, help_text=gettext_lazy("The last word, from whom and where"))
    told_at = models.DateTimeField(null=True, blank=True)
    official = models.CharField(max_length=500, blank=True)
    note = models.CharField(max_length=500, blank=True)

    sent_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        verbose_name = "check-in"
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_check_in_of_a_number"),)
        indexes = (models.Index(fields=("event", "entry", "day"), name="check_ins_of_a_boat_and_day"),)

    def __str__(self) -> str:
        return f"Check-in {self.number}"

    @property
    def clock_off(self) -> timedelta | None:
        """How far the clock of the device was ahead (negative: behind), when that is more than two minutes."""
        return clock_off(self.received_at, self.sent_at, self.checked_in or self.told_at)


class DueNotice(AppendOnly):
    """One act that moved every due time of a day, with the word that went out to the boats.

    ``moved`` holds the clock before and after by flight (empty name: boats of no flight), as ``HH:MM:SS`` texts.
    A notice is never taken back: another one moves the times again.
    """

    class How(models.TextChoices):
        HORN = "horn", gettext_lazy("Horn")
        RADIO = "radio", gettext_lazy("Radio")
        PHONE = "phone", gettext_lazy("Telephone")
        BOAT = "boat", gettext_lazy("By boat")
        BOARD = "board", gettext_lazy("On the board")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="due_notices")
    number = models.PositiveIntegerField()
    day = models.PositiveSmallIntegerField()
    moved = models.JSONField(default=dict)
    shortened = models.BooleanField(default=False)
    given_at = models.DateTimeField(help_text=gettext_lazy("When the boats were told"))
    given_by = models.CharField(max_length=120)
    how = models.CharField(max_length=10, choices=How.choices)
    reason = models.CharField(max_length=500)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("due notice")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_due_notice_of_a_number"),)

    def __str__(self) -> str:
        return f"Notice {self.number}"
