"""Results as they are posted and made official, protests against them: rows that are only added."""

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.events.models import Event
from weighin.records.models import Correctable
from weighin.roster.models import Entry


class OfficialResult(AppendOnly):
    """A version of an event's official result: rules, standings and purse as they stood, with the slips' chain head.

    A later correction makes the next version, with a reason; every version stays readable. ``stage`` says after which
    day it stands when the event's last was not over (``after day 1 of 2``), empty otherwise; ``overruled`` holds every
    open question that it was published over: code, day, question, reason; null, and the stage unknown, in versions that
    are older than these fields. ``side_pots`` is what each boat won of each pot, which stand beside the document as the
    rules do not know them; null where it was not said.
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
    side_pots = models.JSONField(null=True, blank=True)
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


class Posting(AppendOnly):
    """The provisional result as it was posted: from then on protests are taken for so many minutes. The newest counts."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="postings")
    posted_at = models.DateTimeField(default=timezone.now)
    posted_by = models.CharField(max_length=150)
    minutes = models.PositiveIntegerField()
    ledger_length = models.PositiveIntegerField()
    ledger_head = models.CharField(max_length=64)
    document = models.JSONField()

    class Meta:
        verbose_name = gettext_lazy("posted result")
        ordering = ("-id",)

    def __str__(self) -> str:
        return f"{self.event}: posted {self.posted_at}"


class ProtestTime(AppendOnly):
    """For how many minutes after the posting protests are taken; the last row of an event counts."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="protest_times")
    minutes = models.PositiveIntegerField()
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("time for protests")
        verbose_name_plural = gettext_lazy("times for protests")
        ordering = ("id",)

    def __str__(self) -> str:
        return f"{self.minutes} minutes"


class Protest(Correctable):
    """A protest in writing: who, when, about which team or slip. ``entry`` is null for one about the whole result.

    ``case`` is the number that people call it by, the same through corrections. Who and what it says are never public.
    """

    class Could(models.TextChoices):
        LOWER = "lower", gettext_lazy("The team could drop: a penalty, a disqualification")
        RAISE = "raise", gettext_lazy("The team could rise: its weight is too low")
        EITHER = "either", gettext_lazy("Either, or not known yet")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="protests", db_index=False)
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, null=True, blank=True, related_name="protests")
    case = models.PositiveIntegerField()
    who = models.CharField(max_length=120)
    slip = models.PositiveIntegerField(null=True, blank=True)
    could = models.CharField(max_length=10, choices=Could.choices)
    handed_in = models.DateTimeField()
    matter = models.TextField()

    class Meta:
        verbose_name = gettext_lazy("protest")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_protest_of_a_number"),)

    def __str__(self) -> str:
        return f"Protest {self.case}"


class Ruling(Correctable):
    """What was ruled on the protest of a ``case``, by whom and when; one of each counts."""

    class Outcome(models.TextChoices):
        UPHELD = "upheld", gettext_lazy("Upheld")
        DENIED = "denied", gettext_lazy("Denied")
        WITHDRAWN = "withdrawn", gettext_lazy("Withdrawn by who made it")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="rulings", db_index=False)
    case = models.PositiveIntegerField()
    outcome = models.CharField(max_length=10, choices=Outcome.choices)
    words = models.TextField()
    ruled_by = models.CharField(max_length=120)
    ruled_at = models.DateTimeField()

    class Meta:
        verbose_name = gettext_lazy("ruling")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_ruling_of_a_number"),)

    def __str__(self) -> str:
        return f"Ruling on protest {self.case}"
