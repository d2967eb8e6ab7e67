"""Tanks, bags from the table, releases and what became of fish.

Measured figures and temperatures are kept as written; an empty text is "not recorded". Counts of walks and
kept fish enter no rate; fish found dead when a batch went back do, once (``queries.at_release``).
"""

import uuid

from django.db import models
from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event
from weighin.roster.models import Entry


class TankReading(models.Model):
    """One reading of a holding tank."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="tank_readings")
    day = models.PositiveSmallIntegerField()
    tank = models.CharField(max_length=80)
    volume_gal = models.CharField(max_length=40, blank=True)
    time = models.DateTimeField()
    temp = models.CharField(max_length=20, blank=True)
    do = models.CharField(max_length=40, blank=True)
    ph = models.CharField(max_length=40, blank=True)
    total_ammonia = models.CharField(max_length=40, blank=True)
    salt_percent = models.CharField(max_length=40, blank=True)
    fish_lb = models.CharField(max_length=40, blank=True)
    note = models.CharField(max_length=500, blank=True)
    sent_id = models.UUIDField(
        null=True, blank=True, unique=True, editable=False, help_text="Of the form or device that sent it"
    )

    class Meta:
        ordering = ("day", "time", "id")

    def __str__(self) -> str:
        return gettext("%(tank)s, day %(day)s") % {"tank": self.tank, "day": self.day}


class Treatment(models.Model):
    """Something put into a tank, or half its water changed. Figures are kept as written."""

    class What(models.TextChoices):
        WATER = "water", gettext_lazy("Water changed")
        ICE = "ice", gettext_lazy("Ice")
        SALT = "salt", gettext_lazy("Salt")
        OXYGEN = "oxygen", gettext_lazy("Oxygen")
        CONDITIONER = "conditioner", gettext_lazy("Water conditioner")
        OTHER = "other", gettext_lazy("Another product")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="treatments")
    day = models.PositiveSmallIntegerField()
    tank = models.CharField(max_length=80)
    what = models.CharField(max_length=20, choices=What.choices)
    product = models.CharField(max_length=120, blank=True)
    dose = models.CharField(max_length=80)
    started = models.DateTimeField()
    ended = models.DateTimeField(null=True, blank=True)
    label_seen = models.BooleanField(null=True, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("day", "started", "id")

    def __str__(self) -> str:
        return gettext("%(product)s, %(tank)s, day %(day)s") % {
            "product": self.product or self.get_what_display(),
            "tank": self.tank,
            "day": self.day,
        }

    @property
    def named(self) -> str:
        """The product's name, else what kind of thing it was."""
        return self.product or self.get_what_display()

    @property
    def is_product(self) -> bool:
        """Whether it comes with a label whose word holds."""
        return self.what not in (self.What.WATER, self.What.ICE)


class Release(models.Model):
    """One batch let go at one place: ``fish`` brought there, ``dead`` of them found dead when let go.

    Measured figures are kept as written. ``water_temp`` is the lake's at the place, ``tank_temp`` the water's the
    fish came in; ``distance_mi`` is from the ramp.
    """

    class By(models.TextChoices):
        BOAT = "boat", gettext_lazy("Boat trip")
        BATCH = "batch", gettext_lazy("Batch from the tanks")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="releases")
    day = models.PositiveSmallIntegerField()
    time = models.DateTimeField()
    by = models.CharField(max_length=10, choices=By.choices)
    place = models.CharField(max_length=80)
    depth_ft = models.CharField(max_length=40, blank=True)
    water_temp = models.CharField(max_length=20, blank=True)
    tank_temp = models.CharField(max_length=20, blank=True)
    distance_mi = models.CharField(max_length=40, blank=True)
    fish = models.PositiveIntegerField()
    dead = models.PositiveIntegerField(default=0)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("day", "time", "id")

    def __str__(self) -> str:
        return gettext("%(fish)s fish at %(place)s, day %(day)s") % {
            "fish": self.fish,
            "place": self.place,
            "day": self.day,
        }


class FloaterWalk(models.Model):
    """A walk or ride along the shore some hours after the release, counting dead fish of the event's species.

    A count and no rate: other fish sink or are eaten, and not every dead one was at the event.
    """

    class After(models.IntegerChoices):
        DAY = 24, gettext_lazy("24 hours")
        TWO_DAYS = 48, gettext_lazy("48 hours")
        THREE_DAYS = 72, gettext_lazy("72 hours")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="floater_walks")
    hours = models.PositiveSmallIntegerField(choices=After.choices)
    walked = models.DateTimeField()
    shore = models.CharField(max_length=120)
    length_mi = models.CharField(max_length=40, blank=True)
    dead = models.PositiveIntegerField()
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("walked", "id")

    def __str__(self) -> str:
        return gettext("Floating fish at %(hours)s h, %(shore)s") % {"hours": self.hours, "shore": self.shore}


class KeptFish(models.Model):
    """Fish that did not go back into the lake, and what became of them."""

    class Went(models.TextChoices):
        KEPT = "kept", gettext_lazy("Kept by the anglers")
        GIVEN = "given", gettext_lazy("Given away")
        DISPOSED = "disposed", gettext_lazy("Disposed of as the agency says")
        LENT = "lent", gettext_lazy("Lent to a display or a photo")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="kept_fish")
    day = models.PositiveSmallIntegerField()
    went = models.CharField(max_length=10, choices=Went.choices)
    boat = models.PositiveIntegerField(null=True, blank=True)
    fish = models.PositiveIntegerField()
    alive = models.BooleanField()
    came_back = models.PositiveIntegerField(default=0)
    receiver = models.CharField(max_length=120, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("day", "went", "id")

    def __str__(self) -> str:
        return gettext("%(fish)s fish, %(get_went_display)s, day %(day)s") % {
            "fish": self.fish,
            "get_went_display": self.get_went_display().lower(),
            "day": self.day,
        }


class HandedBag(models.Model):
    """One boat's live fish of one day, handed from the table to the release tank or boat.

    ``release`` is the batch they went back with; empty while they wait in the tank.
    """

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="handed_bags")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="handed_bags")
    day = models.PositiveSmallIntegerField()
    fish = models.PositiveIntegerField()
    handed = models.DateTimeField()
    handed_by = models.CharField(max_length=150)
    release = models.ForeignKey(Release, on_delete=models.SET_NULL, null=True, blank=True, related_name="bags")

    class Meta:
        ordering = ("day", "handed", "id")
        constraints = (models.UniqueConstraint(fields=("entry", "day"), name="one_handed_bag_a_boat_and_day"),)

    def __str__(self) -> str:
        return gettext("bag of boat %(boat)s, day %(day)s") % {"boat": self.entry.boat, "day": self.day}
