"""Care notes, one a team and day, and the notes that stations sent.

Measured figures and temperatures are kept as written; an empty text is "not recorded".
"""

import uuid

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.events.models import Event
from weighin.roster.models import Entry


class CareNote(models.Model):
    """How a team kept its fish on one day."""

    class Aeration(models.TextChoices):
        RECIRCULATED = "recirculated", gettext_lazy("Recirculated")
        PUMPED = "pumped", gettext_lazy("Pumped from the lake")
        OXYGEN = "oxygen", gettext_lazy("Oxygen")
        NONE = "none", gettext_lazy("None")

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
    culled = models.PositiveIntegerField(null=True, blank=True, help_text="Fish put back alive for larger ones")
    catch_depth_ft = models.CharField(max_length=40, blank=True, help_text="The deepest water that fish came from")
    deep_hooked = models.PositiveIntegerField(null=True, blank=True)
    barotrauma = models.PositiveIntegerField(null=True, blank=True)
    reflexes_absent = models.PositiveIntegerField(null=True, blank=True)
    reflexes_checked = models.PositiveIntegerField(null=True, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("day", "entry__boat")
        constraints = (models.UniqueConstraint(fields=("entry", "day"), name="one_note_a_boat_and_day"),)

    def __str__(self) -> str:
        return gettext("Care note of %(entry)s, day %(day)s") % {"entry": self.entry, "day": self.day}


class SentNote(AppendOnly):
    """A care note as a station sent it, under the id that the station made.

    ``said`` holds what it says of the fields of ``CareNote``, blanks left out; what it says ``stands`` when the
    boat's care note says it too. One that contradicts an earlier note stays beside it until an official decides.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="sent_notes")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="sent_notes")
    number = models.PositiveIntegerField()
    day = models.PositiveSmallIntegerField()
    said = models.JSONField(default=dict)
    stands = models.BooleanField()
    official = models.CharField(max_length=500, blank=True)
    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    reason = models.CharField(max_length=500, blank=True)
    void = models.BooleanField(default=False)
    sent_at = models.DateTimeField(null=True, blank=True, help_text="By the clock of the device that sent it")
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = "sent care note"
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_sent_note_of_a_number"),)
        indexes = (models.Index(fields=("event", "entry", "day"), name="sent_notes_of_a_boat_and_day"),)

    def __str__(self) -> str:
        return gettext("Care note %(number)s") % {"number": self.number}
