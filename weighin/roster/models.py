"""Who fishes: teams over a season, their entries in events, and the anglers of each entry."""

from django.core.validators import MinValueValidator
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.domain.aside import fresh_salt, mark_of
from weighin.audit.models import AppendOnly
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.records.models import Correctable


class Team(models.Model):
    """A team over a season: entries of one name, whatever its case and spacing, are one team."""

    season = models.ForeignKey(Season, on_delete=models.PROTECT, related_name="teams")
    folded_name = models.CharField(max_length=120)
    name = models.CharField(max_length=120)

    class Meta:
        ordering = ("name",)
        constraints = (models.UniqueConstraint(fields=("season", "folded_name"), name="one_team_of_a_name"),)

    def __str__(self) -> str:
        return self.name


class Numbered(models.Manager["Entry"]):
    """Entries that have a boat number: those that launch, weigh in and stand in standings and files."""

    def get_queryset(self) -> "models.QuerySet[Entry]":
        return super().get_queryset().filter(boat__isnull=False)


class Entry(models.Model):
    """A team in an event, with its boat number.

    ``number`` counts from 1 in the order in which the teams were entered, and an entry keeps it: draws go by it.
    A team without one waits for the desk or for a draw. ``Entry.objects``, and so ``event.entries``, leave it out;
    ``Entry.everyone`` has it too.
    """

    class Status(models.TextChoices):
        ENTERED = "entered", gettext_lazy("Entered")
        WITHDRAWN = "withdrawn", gettext_lazy("Withdrawn")
        ABSENT = "absent", gettext_lazy("Absent")
        DISQUALIFIED = "disqualified", gettext_lazy("Disqualified")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="entries")
    team = models.ForeignKey(Team, on_delete=models.PROTECT, related_name="entries")
    number = models.PositiveIntegerField(editable=False)
    # Who reads by ``objects`` meets no None, and the type says so; ``waits`` is asked of the others
    boat: "models.PositiveIntegerField[int | None, int]" = models.PositiveIntegerField(  # type: ignore[misc]
        null=True, blank=True, validators=[MinValueValidator(1)]
    )
    name = models.CharField(max_length=120)
    youth = models.BooleanField(null=True, blank=True)
    flight_name = models.CharField(max_length=40, blank=True)
    paid = models.BooleanField(default=False)
    big_fish_pot = models.BooleanField(default=False)
    status = models.CharField(max_length=20, choices=Status.choices, default=Status.ENTERED)
    lot = models.PositiveIntegerField(null=True, blank=True)
    note = models.TextField(max_length=500, blank=True)

    objects = Numbered()
    everyone: "models.Manager[Entry]" = models.Manager()

    class Meta:
        ordering = ("boat",)
        constraints = (
            models.UniqueConstraint(fields=("event", "boat"), name="one_entry_a_boat"),
            models.UniqueConstraint(fields=("event", "number"), name="one_entry_a_number"),
        )

    def __str__(self) -> str:
        return self.name if self.waits else f"Boat {self.boat}, {self.name}"

    @property
    def waits(self) -> bool:
        """Whether it has no boat number yet."""
        return self.boat is None


class Contact(models.Model):
    """How the people of an entry are reached, and whom to ring when their boat is missing.

    Only those see it who may: it stands in no event workbook, no public page or JSON, no history and no log.
    """

    entry = models.OneToOneField(Entry, on_delete=models.CASCADE, related_name="contact")
    phone = models.CharField(max_length=60, blank=True)
    emergency = models.CharField(max_length=200, blank=True)
    email = models.CharField(max_length=254, blank=True)

    def __str__(self) -> str:
        return f"Contact of {self.entry}"


class Angler(models.Model):
    """A person of an entry, first, second or third on its line.

    Chains, seals and digests say the ``mark`` of an angler and never the name, which may have to be erased: then a name
    that tells nobody takes its place, the salt is drawn anew, and no former mark can be tried with names.
    """

    entry = models.ForeignKey(Entry, on_delete=models.CASCADE, related_name="anglers")
    position = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=120)
    salt = models.CharField(max_length=32, default=fresh_salt)
    erased_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ("position",)
        constraints = (models.UniqueConstraint(fields=("entry", "position"), name="one_angler_a_line"),)

    def __str__(self) -> str:
        return self.name

    @property
    def mark(self) -> str:
        """What a seal of the team says in the place of the name (64 hex figures)."""
        return mark_of(self.salt, self.name)


class Seen(Correctable):
    """Something of a team that was seen at the desk or at the ramp; undone by another row that ``replaces`` it.

    The safety check is of a day, and each of its parts a row of its own.
    """

    class What(models.TextChoices):
        WAIVER = "waiver", gettext_lazy("Waiver")
        LICENSE = "license", gettext_lazy("License")
        MEMBERSHIP = "membership", gettext_lazy("Membership")
        NO_FISH = "no_fish", gettext_lazy("No fish aboard")
        JACKETS = "jackets", gettext_lazy("Life jackets")
        KILL_SWITCH = "kill_switch", gettext_lazy("Kill switch")

    SAFETY = (What.NO_FISH, What.JACKETS, What.KILL_SWITCH)

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="seen", db_index=False)
    # Tells of the team and not of its boat number, which a voided draw may take back: so it is no PROTECT
    entry = models.ForeignKey(Entry, on_delete=models.RESTRICT, related_name="seen")
    what = models.CharField(max_length=20, choices=What.choices)
    day = models.PositiveSmallIntegerField(null=True, blank=True)

    reason = None  # type: ignore[assignment]  # an item is seen or not: nothing to explain

    class Meta:
        verbose_name = gettext_lazy("item seen")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_seen_of_a_number"),)

    def __str__(self) -> str:
        return f"Item seen {self.number}"


class DeskAsks(AppendOnly):
    """What the desk of an event asks every team for; the last row counts, and without one it is all there is."""

    CONTACT = "contact"

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="desk_asks")
    asked = models.CharField(max_length=200, blank=True)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("list of what the desk asks for")
        ordering = ("id",)

    def __str__(self) -> str:
        return self.asked
