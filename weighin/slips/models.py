"""Weigh slips, only ever added and corrected by new ones; and the paper pads whose numbers they may come from."""

import uuid
from datetime import timedelta

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly, AppendOnlyQuerySet
from weighin.events.domain.clock import clock_off
from weighin.events.models import Event
from weighin.records.models import CurrentQuerySet
from weighin.roster.models import Entry


class WeighSlip(AppendOnly):
    """What the table saw of one team on one day, as the scale showed it.

    Weights are kept as written in the event's unit; an empty text is "not recorded". A correction is a new slip
    that ``replaces`` one; a ``void`` takes the slip it replaces out. ``position`` and ``link`` are the event's hash chain.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    # No index of their own: those below begin with them, and each costs every slip a page to write
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="slips", db_index=False)
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="slips", db_index=False)
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
    dead_at_release = models.PositiveIntegerField(null=True, blank=True)
    kept = models.PositiveIntegerField(null=True, blank=True)

    extra_penalty = models.CharField(max_length=40, blank=True)
    extra_penalty_reason = models.CharField(max_length=500, blank=True)
    disqualified_reason = models.CharField(max_length=500, blank=True)
    official = models.CharField(max_length=500, blank=True)
    note = models.CharField(max_length=500, blank=True)

    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    reason = models.CharField(max_length=500, blank=True)
    void = models.BooleanField(default=False)

    sent_at = models.DateTimeField(
        null=True, blank=True, help_text=gettext_lazy("By the clock of the device that sent it")
    )
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)
    position = models.PositiveIntegerField()
    version = models.PositiveSmallIntegerField(default=1, help_text="Of the content that is chained")
    link = models.CharField(max_length=64)

    objects = CurrentQuerySet.as_manager()  # type: ignore[misc]
    PLACE = "position"

    class Meta:
        verbose_name = gettext_lazy("weigh slip")
        ordering = ("position",)
        constraints = (
            models.UniqueConstraint(fields=("event", "number"), name="one_slip_of_a_number"),
            models.UniqueConstraint(fields=("event", "position"), name="one_slip_a_position"),
        )
        indexes = (models.Index(fields=("entry", "day"), name="slips_of_an_entry_and_day"),)

    def __str__(self) -> str:
        return f"Slip {self.number}"

    @property
    def clock_off(self) -> timedelta | None:
        """How far the clock of the device was ahead (negative: behind), when that is more than two minutes."""
        return clock_off(self.received_at, self.sent_at, self.weighed)


class PaperPad(AppendOnly):
    """A pad handed out: its numbers, ``first`` to ``last``, are no other pad's of the event."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="paper_pads")
    name = models.CharField(max_length=40, help_text=gettext_lazy("Its color or mark"))
    first = models.PositiveIntegerField()
    last = models.PositiveIntegerField()
    handed_to = models.CharField(max_length=120)
    handed_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("pad of paper slips")
        ordering = ("first",)

    def __str__(self) -> str:
        return self.name


class CurrentNumbers(AppendOnlyQuerySet):
    def current(self) -> "CurrentNumbers":
        """What is said of the numbers now."""
        return self.filter(replaced_by__isnull=True, void=False)


class PaperNumber(AppendOnly):
    """What became of one number: the slip that was entered from it, or why there is none.

    A ``void`` takes back what the row said that it ``replaces``. ``slip_id`` is the slip's id, no foreign key: the
    slips' own tables know nothing of paper.
    """

    class Became(models.TextChoices):
        ENTERED = "entered", gettext_lazy("Entered")
        SPOILED = "spoiled", gettext_lazy("Spoiled")
        BLANK = "blank", gettext_lazy("Came back blank")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="paper_numbers")
    number = models.PositiveIntegerField()
    became = models.CharField(max_length=10, choices=Became.choices)
    slip_id = models.UUIDField(null=True, blank=True, db_index=True)
    reason = models.CharField(max_length=500, blank=True)
    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    void = models.BooleanField(default=False)
    recorded_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    objects = CurrentNumbers.as_manager()  # type: ignore[misc]

    class Meta:
        verbose_name = gettext_lazy("number of a paper slip")
        ordering = ("number", "id")
        indexes = (models.Index(fields=("event", "number"), name="paper_numbers_of_an_event"),)

    def __str__(self) -> str:
        return f"Paper slip {self.number}"
