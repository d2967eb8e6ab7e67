"""Events, their days, flights and rule sheets.

Temperatures are kept as written (``82 F``) and read by ``temperatures``; times of day are local to the event.
"""

from datetime import date, time

from django.core.validators import MinValueValidator
from django.db import models
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly, RemovedWhole
from weighin.clubs.models import Club, Season, Water
from weighin.rules.weights import UNITS


class Handling(models.TextChoices):
    """What becomes of the fish; the agency's word goes first."""

    HOLD_RELEASE = "hold_release", gettext_lazy("Held, weighed and released")
    IMMEDIATE_RELEASE = "immediate_release", gettext_lazy("Measured and released at once")
    HARVEST = "harvest", gettext_lazy("Kept")


class Fate(models.TextChoices):
    """What became of the fish that died, for the agency's report."""

    GIVEN = "given", gettext_lazy("Given away to eat")
    KEPT = "kept", gettext_lazy("Kept by the anglers")
    BURIED = "buried", gettext_lazy("Buried")
    RENDERED = "rendered", gettext_lazy("Taken to a rendering or compost plant")
    AGENCY = "agency", gettext_lazy("Handed to the agency")
    NONE = "none", gettext_lazy("No fish died")
    OTHER = "other", gettext_lazy("Something else")


class Real(models.Manager["Event"]):
    """Events that are no rehearsals: all that a list, a season, a sum or the public may ever see."""

    def get_queryset(self) -> "models.QuerySet[Event]":
        return super().get_queryset().filter(rehearsal_of=None)


class Event(RemovedWhole):
    """A tournament of one or more days.

    A rehearsal is a marked copy of another event, with rows of its own, and goes with all of them. ``Event.objects``,
    and so ``season.events``, leave rehearsals out; ``Event.everyone`` finds whatever has a key or an address. A query
    of other rows by their event's season or date says ``event__rehearsal_of=None``.
    """

    REMOVED_WHERE_SET = "rehearsal_of"

    rehearsal_of = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, editable=False, related_name="rehearsal"
    )
    season = models.ForeignKey(Season, on_delete=models.PROTECT, related_name="events")
    water = models.ForeignKey(Water, on_delete=models.PROTECT, related_name="events")
    name = models.CharField(max_length=120)
    slug = models.SlugField(max_length=140, unique=True)
    date = models.DateField(help_text=gettext_lazy("First day"))
    weight_unit = models.CharField(max_length=5, choices=[(unit, unit) for unit in UNITS])
    start_time = models.TimeField(default=time(6))
    due_time = models.TimeField(default=time(15))
    time_zone = models.CharField(max_length=60, default="America/Chicago")
    handling = models.CharField(max_length=20, choices=Handling.choices, default=Handling.HOLD_RELEASE)
    elevation_ft = models.CharField(max_length=20, blank=True)
    lake_temp = models.CharField(max_length=20, blank=True)
    entry_fee = models.DecimalField(max_digits=12, decimal_places=2, default=0, validators=[MinValueValidator(0)])
    added_money = models.DecimalField(max_digits=12, decimal_places=2, default=0, validators=[MinValueValidator(0)])
    permit = models.CharField(max_length=500, blank=True)
    ramp = models.CharField(max_length=120, blank=True)
    dead_fish = models.CharField(max_length=10, choices=Fate.choices, blank=True)
    dead_fish_words = models.CharField(max_length=200, blank=True)
    note = models.TextField(max_length=2000, blank=True)
    is_public = models.BooleanField(default=False)
    closed_at = models.DateTimeField(null=True, blank=True)
    revision = models.PositiveIntegerField(
        default=0, help_text=gettext_lazy("Goes up with every write that concerns the event")
    )

    objects = Real()
    everyone: "models.Manager[Event]" = models.Manager()

    class Meta:
        ordering = ("-date", "-id")
        constraints = (
            models.UniqueConstraint(fields=("season", "name"), name="one_event_of_a_name"),
            models.CheckConstraint(
                condition=models.Q(is_public=False) | models.Q(rehearsal_of=None), name="no_rehearsal_is_public"
            ),
        )

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("operations:day", args=[self.slug])

    @property
    def club(self) -> Club:
        return self.season.club

    @property
    def fate_of_dead(self) -> str:
        """What became of the dead fish in words; blank where nobody recorded it."""
        words = "" if self.dead_fish == Fate.OTHER else str(Fate(self.dead_fish).label) if self.dead_fish else ""
        return ": ".join(filter(None, (words, self.dead_fish_words)))


class EventDay(models.Model):
    """One day of an event. Empty times and temperature mean the event's own."""

    class Status(models.TextChoices):
        FISHED = "fished", gettext_lazy("Fished")
        SHORTENED = "shortened", gettext_lazy("Shortened")
        CANCELLED = "cancelled", gettext_lazy("Cancelled")

    event = models.ForeignKey(Event, on_delete=models.CASCADE, related_name="event_days")
    number = models.PositiveSmallIntegerField()
    date = models.DateField(default=date.today)
    start_time = models.TimeField(null=True, blank=True)
    due_time = models.TimeField(null=True, blank=True)
    lake_temp = models.CharField(max_length=20, blank=True)
    air_temp = models.CharField(max_length=20, blank=True)
    weather = models.CharField(max_length=200, blank=True)
    status = models.CharField(max_length=10, choices=Status.choices, default=Status.FISHED)
    note = models.TextField(max_length=2000, blank=True)

    class Meta:
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_day_of_a_number"),)

    def __str__(self) -> str:
        return f"{self.event}, day {self.number}"


class Flight(models.Model):
    """A flight's due time, on one day or (without ``day``) on every day."""

    event = models.ForeignKey(Event, on_delete=models.CASCADE, related_name="flights")
    name = models.CharField(max_length=40)
    day = models.PositiveSmallIntegerField(null=True, blank=True)
    launch = models.TimeField(null=True, blank=True)
    due_time = models.TimeField()

    class Meta:
        ordering = ("name", "day")
        constraints = (
            models.UniqueConstraint(fields=("event", "name", "day"), name="one_due_time_a_flight_and_day"),
            models.UniqueConstraint(
                fields=("event", "name"), condition=models.Q(day__isnull=True), name="one_due_time_a_flight"
            ),
        )

    def __str__(self) -> str:
        return self.name


class ClubSheet(models.Model):
    """A rule sheet of the club under a name; what it says stands in its versions."""

    club = models.ForeignKey(Club, on_delete=models.PROTECT, related_name="sheets")
    name = models.CharField(max_length=80)
    slug = models.SlugField(max_length=80)
    weight_unit = models.CharField(max_length=5, choices=[(unit, unit) for unit in UNITS])
    retired_at = models.DateTimeField(
        null=True, blank=True, help_text=gettext_lazy("Read as before, and not offered any more")
    )

    class Meta:
        ordering = ("name",)
        constraints = (
            models.UniqueConstraint(fields=("club", "name"), name="one_sheet_of_a_name"),
            models.UniqueConstraint(fields=("club", "slug"), name="one_sheet_of_a_slug"),
        )

    def __str__(self) -> str:
        return self.name


class SheetVersion(AppendOnly):
    """One version of a club's sheet: every key as written, and why it is there. A change makes the next."""

    sheet = models.ForeignKey(ClubSheet, on_delete=models.PROTECT, related_name="versions")
    number = models.PositiveIntegerField()
    written = models.JSONField()
    reason = models.CharField(max_length=200, blank=True)
    kept_at = models.DateTimeField(default=timezone.now)
    kept_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("version of a rule sheet")
        verbose_name_plural = gettext_lazy("versions of a rule sheet")
        ordering = ("-number",)
        constraints = (models.UniqueConstraint(fields=("sheet", "number"), name="one_version_of_a_number"),)

    def __str__(self) -> str:
        return f"{self.sheet}, version {self.number}"


class RuleSheet(models.Model):
    """The event's rule sheet: every key as written, and the club's version it was copied from. Locked by the first slip;
    what changed after it stands in ``versions``, oldest first (``rules.sheets.changes``)."""

    event = models.OneToOneField(Event, on_delete=models.CASCADE, related_name="rule_sheet")
    written = models.JSONField(default=dict)
    copied_from = models.ForeignKey(
        SheetVersion, on_delete=models.PROTECT, null=True, blank=True, related_name="copies"
    )
    versions = models.JSONField(default=list, blank=True)

    def __str__(self) -> str:
        return f"Rule sheet of {self.event}"
