"""Pads of numbered paper slips, and what became of each number."""

from django.db import models
from django.utils import timezone

from weighin.audit.models import AppendOnly, AppendOnlyQuerySet
from weighin.events.models import Event


class PaperPad(AppendOnly):
    """A pad handed out: its numbers, ``first`` to ``last``, are no other pad's of the event."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="paper_pads")
    name = models.CharField(max_length=40, help_text="Its colour or mark")
    first = models.PositiveIntegerField()
    last = models.PositiveIntegerField()
    handed_to = models.CharField(max_length=120)
    handed_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = "pad of paper slips"
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
        ENTERED = "entered", "Entered"
        SPOILED = "spoiled", "Spoiled"
        BLANK = "blank", "Came back blank"

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
        verbose_name = "number of a paper slip"
        ordering = ("number", "id")
        indexes = (models.Index(fields=("event", "number"), name="paper_numbers_of_an_event"),)

    def __str__(self) -> str:
        return f"Paper slip {self.number}"
