"""Money and draws of an event: what teams paid, side pots, what was paid out; who launches where. Rows are only added."""

from typing import Any

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.audit.models import AppendOnly
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.records.models import Correctable
from weighin.roster.models import Entry


class Means(models.TextChoices):
    """How money changed hands. What a list says of a team alone, that it has paid, is not recorded."""

    CASH = "cash", gettext_lazy("Cash")
    CHECK = "check", gettext_lazy("Check")
    CARD = "card", gettext_lazy("Card")
    ONLINE = "online", gettext_lazy("Online")
    OTHER = "other", gettext_lazy("Other")
    NOT_RECORDED = "not_recorded", gettext_lazy("Not recorded")


class Wins(models.TextChoices):
    """What wins a side pot."""

    BIG_FISH = "big_fish", gettext_lazy("The largest fish")
    TOTAL = "total", gettext_lazy("The largest total")
    YOUTH_TOTAL = "youth_total", gettext_lazy("The largest total of a youth team")
    FIRST_LIMIT = "first_limit", gettext_lazy("The first limit weighed")


class SidePot(models.Model):
    """A pot beside the big fish pot; ``reason`` is why it was changed last, ``shares`` as the big fish pot's (blank: 100)."""

    event = models.ForeignKey(Event, on_delete=models.CASCADE, related_name="side_pots")
    name = models.CharField(max_length=60)
    fee = models.DecimalField(max_digits=12, decimal_places=2)
    wins = models.CharField(max_length=20, choices=Wins.choices)
    shares = models.CharField(max_length=120, blank=True)
    reason = models.CharField(max_length=500, blank=True)

    class Meta:
        verbose_name = gettext_lazy("side pot")
        ordering = ("name",)
        constraints = (models.UniqueConstraint(fields=("event", "name"), name="one_side_pot_of_a_name"),)

    def __str__(self) -> str:
        return self.name


def with_the_team(collector: Any, field: Any, payments: Any, using: str) -> None:
    """Django's ``on_delete``: money that changed hands protects the team. What a list alone said follows it once it is
    gone (``services/following.py``)."""
    name, value, _key = field.model.GO_WHERE
    held = list(payments.exclude(**{name: value}))
    if held:
        raise models.ProtectedError("money of this team is written down", set(held))


class Payment(Correctable):
    """Money of a team taken in, or given back (a negative amount). A correction is a new row that ``replaces`` one.

    A row that nothing replaces, and that is no void, counts. Rows of ``not_recorded`` means are what a list said of the
    team; they alone follow a team that is removed, and the triggers let them once it is gone.
    """

    class Kind(models.TextChoices):
        ENTRY_FEE = "entry_fee", gettext_lazy("Entry fee")
        BIG_FISH_POT = "big_fish_pot", gettext_lazy("Big fish pot")
        SIDE_POT = "side_pot", gettext_lazy("Side pot")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="payments", db_index=False)
    entry = models.ForeignKey(Entry, on_delete=with_the_team, related_name="payments")
    kind = models.CharField(max_length=20, choices=Kind.choices)
    pot = models.CharField(max_length=60, blank=True)
    amount = models.DecimalField(max_digits=12, decimal_places=2)
    means = models.CharField(max_length=20, choices=Means.choices)

    replaces = models.OneToOneField(
        "self", on_delete=models.RESTRICT, null=True, blank=True, related_name="replaced_by"
    )

    GO_WHERE = ("means", Means.NOT_RECORDED.value, "entry")

    class Meta:
        verbose_name = gettext_lazy("payment")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_payment_of_a_number"),)

    def __str__(self) -> str:
        return f"Payment {self.number}"


class PayOut(Correctable):
    """A prize handed over: to whom, how much, by which means, and who received it."""

    class Kind(models.TextChoices):
        PLACE = "place", gettext_lazy("Place")
        BIG_FISH_POT = "big_fish_pot", gettext_lazy("Big fish pot")
        SIDE_POT = "side_pot", gettext_lazy("Side pot")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="pay_outs", db_index=False)
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="pay_outs")
    kind = models.CharField(max_length=20, choices=Kind.choices)
    pot = models.CharField(max_length=60, blank=True)
    amount = models.DecimalField(max_digits=12, decimal_places=2)
    means = models.CharField(max_length=20, choices=Means.choices)
    received_by = models.CharField(max_length=120)

    class Meta:
        verbose_name = gettext_lazy("pay-out")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_pay_out_of_a_number"),)

    def __str__(self) -> str:
        return f"Pay-out {self.number}"


class Draw(Correctable):
    """A draw, and what it gave; as a void it takes back what the one that it ``replaces`` gave.

    ``order`` holds a row for each team: entry, team, hash, result. ``were`` is what these entries had before, by their
    numbers, to be given back. A draw that nothing replaces, and that is no void, stands.
    """

    class Purpose(models.TextChoices):
        BOATS = "boats", gettext_lazy("Boat numbers")
        LAUNCH = "launch", gettext_lazy("Launch order")
        FLIGHTS = "flights", gettext_lazy("Flights")
        LOTS = "lots", gettext_lazy("Lots for ties")

    class Way(models.TextChoices):
        SEED = "seed", gettext_lazy("By lot")
        PAYMENT = "payment", gettext_lazy("First paid, first out")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="draws", db_index=False)
    purpose = models.CharField(max_length=10, choices=Purpose.choices)
    way = models.CharField(max_length=10, choices=Way.choices)
    seed = models.CharField(max_length=500, blank=True)
    order = models.JSONField(default=list)
    were = models.JSONField(default=dict)

    class Meta:
        verbose_name = gettext_lazy("draw")
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=("event", "number"), name="one_draw_of_a_number"),)

    def __str__(self) -> str:
        return f"Draw {self.number}"


class DrawsShown(AppendOnly):
    """Whether the public sees the draws of an event; the last row counts."""

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="draws_shown")
    shown = models.BooleanField()
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("showing of draws")
        ordering = ("id",)

    def __str__(self) -> str:
        return "shown" if self.shown else "not shown"


class PayeeNotice(AppendOnly):
    """The sum above which a club wants those listed whom it pays prizes; blank: nobody. The last row counts."""

    club = models.ForeignKey(Club, on_delete=models.PROTECT, related_name="payee_notices")
    above = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    class Meta:
        verbose_name = gettext_lazy("sum of payees")
        ordering = ("id",)

    def __str__(self) -> str:
        return f"{self.club}: {self.above}"
