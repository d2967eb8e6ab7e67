"""Sign-up for an event by the teams themselves: when it is open and on which terms, and what came in."""

import uuid

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.events.models import Event
from weighin.roster.models import Entry


class Approval(models.TextChoices):
    """How a sign-up becomes an entry."""

    BY_HAND = "by_hand", gettext_lazy("The desk approves each")
    AT_ONCE = "at_once", gettext_lazy("At once")


class SignUpTerms(models.Model):
    """Whether teams can sign up for an event, from when to when, and how. ``places`` None: as many as come.

    ``was_open`` stays once it was: from then on the page says that it is closed, to strangers too.
    """

    event = models.OneToOneField(Event, on_delete=models.CASCADE, related_name="sign_up_terms")
    is_open = models.BooleanField(default=False)
    opens = models.DateTimeField(null=True, blank=True)
    closes = models.DateTimeField(null=True, blank=True)
    places = models.PositiveIntegerField(null=True, blank=True)
    guardian_below = models.PositiveSmallIntegerField(null=True, blank=True, default=18)
    approval = models.CharField(max_length=10, choices=Approval.choices, default=Approval.BY_HAND)
    show_teams = models.BooleanField(default=False)
    note = models.TextField(max_length=1000, blank=True)
    was_open = models.BooleanField(default=False)

    class Meta:
        verbose_name = gettext_lazy("sign-up terms")

    def __str__(self) -> str:
        return f"Sign-up for {self.event}"


class SignUp(models.Model):
    """What a team wrote to be entered, and what became of it.

    Names and ways to reach people stand here only while it waits: once approved they stand with the entry, and what is
    refused or withdrawn is blank. The guardians stay with their consent: who, when, and the words that were shown.
    Only a digest of the team's link is kept; the link itself is worked out again from the row's id and the site's key.
    """

    class State(models.TextChoices):
        ASKED = "asked", gettext_lazy("Waits for approval")
        APPROVED = "approved", gettext_lazy("Approved")
        REFUSED = "refused", gettext_lazy("Refused")
        WITHDRAWN = "withdrawn", gettext_lazy("Withdrawn")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.CASCADE, related_name="sign_ups")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.ASKED)

    name = models.CharField(max_length=120, blank=True)
    youth = models.BooleanField(null=True, blank=True)
    angler_1 = models.CharField(max_length=120, blank=True)
    minor_1 = models.BooleanField(null=True, blank=True)
    guardian_1 = models.CharField(max_length=120, blank=True)
    angler_2 = models.CharField(max_length=120, blank=True)
    minor_2 = models.BooleanField(null=True, blank=True)
    guardian_2 = models.CharField(max_length=120, blank=True)
    angler_3 = models.CharField(max_length=120, blank=True)
    minor_3 = models.BooleanField(null=True, blank=True)
    guardian_3 = models.CharField(max_length=120, blank=True)
    consent = models.BooleanField(null=True, blank=True)
    phone = models.CharField(max_length=60, blank=True)
    emergency = models.CharField(max_length=200, blank=True)
    email = models.CharField(max_length=254, blank=True)

    consent_words = models.TextField(blank=True)
    consented_at = models.DateTimeField(null=True, blank=True)
    said_digest = models.CharField(max_length=64)
    token_digest = models.CharField(max_length=64, unique=True)
    link_number = models.PositiveSmallIntegerField(default=1)
    site = models.CharField(max_length=200, blank=True)
    language = models.CharField(max_length=10, default="en", db_default="en")  # of its page, and so of its letters
    entry = models.OneToOneField(Entry, on_delete=models.SET_NULL, null=True, blank=True, related_name="sign_up")
    told_to_wait = models.BooleanField(default=False)
    reason = models.CharField(max_length=300, blank=True)
    decided_by = models.CharField(max_length=150, blank=True)
    decided_at = models.DateTimeField(null=True, blank=True)
    received_at = models.DateTimeField(default=timezone.now)

    class Meta:
        verbose_name = gettext_lazy("sign-up")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_sign_up_of_a_number"),)

    def __str__(self) -> str:
        return f"Sign-up {self.number}"
