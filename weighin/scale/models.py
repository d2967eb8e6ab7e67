"""Weigh slips and check-ins: only ever added, corrected by new ones. Stations that may send them."""

import uuid
from datetime import datetime, timedelta

from django.db import models
from django.utils import timezone

from weighin.audit.models import AppendOnly, AppendOnlyQuerySet
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.scale.line.models import LineTerms as LineTerms
from weighin.scale.line.models import LineWord as LineWord
from weighin.scale.pads.models import PaperNumber as PaperNumber
from weighin.scale.pads.models import PaperPad as PaperPad
from weighin.scale.roll.models import DueNotice as DueNotice
from weighin.scale.scales.models import Scale as Scale
from weighin.scale.scales.models import ScaleCheck as ScaleCheck
from weighin.scale.scales.models import ScaleNow as ScaleNow
from weighin.scale.scales.models import ScaleReading as ScaleReading

CLOCK_MAY_DIFFER = timedelta(minutes=2)


class CurrentQuerySet(AppendOnlyQuerySet):
    def current(self) -> "CurrentQuerySet":
        """Rows that nothing replaces and that are no voids."""
        return self.filter(replaced_by__isnull=True, void=False)

    def current_at(self, moment: datetime) -> "CurrentQuerySet":
        """Rows received by ``moment`` that nothing received by then replaces and that are no voids."""
        later = models.Q(replaced_by__isnull=True) | models.Q(replaced_by__received_at__gt=moment)
        return self.filter(later, received_at__lte=moment, void=False)


def clock_off(received: datetime, sent: datetime | None, noted: datetime | None = None) -> timedelta | None:
    """How far a device's clock is ahead (negative: behind) when that is more than two minutes; else None.

    ``sent`` is the device's time of sending. Without it only a clock that is ahead can be told, by a moment
    ``noted`` that has not come yet.
    """
    shown = sent if sent is not None else max(received, noted or received)
    off = shown - received
    return off if abs(off) > CLOCK_MAY_DIFFER else None


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

    sent_at = models.DateTimeField(null=True, blank=True, help_text="By the clock of the device that sent it")
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)
    position = models.PositiveIntegerField()
    link = models.CharField(max_length=64)

    objects = CurrentQuerySet.as_manager()  # type: ignore[misc]

    class Meta:
        verbose_name = "weigh slip"
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


class CheckIn(AppendOnly):
    """One line of the check-in table's roll: when a boat came in, or the last word of where it is.

    Lines are only added; ``replaces`` corrects one and ``void`` takes one out, as with slips. ``told_at`` is
    the device's clock when a word came, ``checked_in`` when the boat came to the table.
    """

    class Whereabouts(models.TextChoices):
        LAUNCHED = "launched", "Launched"
        IN_BY_WATER = "in_by_water", "In by water"
        IN_BY_ROAD = "in_by_road", "In by road"
        PHONED = "phoned", "Phoned"
        UNACCOUNTED = "unaccounted", "Unaccounted for"

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="checkins")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="checkins")
    number = models.PositiveIntegerField()
    day = models.PositiveSmallIntegerField()

    checked_in = models.DateTimeField(null=True, blank=True)
    minutes_late = models.PositiveIntegerField(null=True, blank=True)
    excused_minutes = models.CharField(max_length=40, blank=True)
    whereabouts = models.CharField(max_length=20, choices=Whereabouts.choices, blank=True)
    word = models.CharField(max_length=500, blank=True, help_text="The last word, from whom and where")
    told_at = models.DateTimeField(null=True, blank=True)
    official = models.CharField(max_length=500, blank=True)
    note = models.CharField(max_length=500, blank=True)

    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    reason = models.CharField(max_length=500, blank=True)
    void = models.BooleanField(default=False)

    sent_at = models.DateTimeField(null=True, blank=True)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    objects = CurrentQuerySet.as_manager()  # type: ignore[misc]

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
