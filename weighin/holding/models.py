"""Holding studies: pens under way, the looks into them, and finished pens.

Temperatures and hours are kept as written; an empty text is "not recorded".
"""

import uuid

from django.db import models
from django.utils.translation import gettext, gettext_lazy

from weighin.events.models import Event


class HoldingPen(models.Model):
    """A pen of a delayed-mortality study: fish held some hours after the event, or reference fish beside them."""

    class Kind(models.TextChoices):
        TOURNAMENT = "tournament", gettext_lazy("Tournament fish")
        REFERENCE = "reference", gettext_lazy("Reference fish")

    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="holding_pens")
    group = models.CharField(max_length=80)
    kind = models.CharField(max_length=20, choices=Kind.choices)
    pen = models.CharField(max_length=80, blank=True)
    source = models.CharField(max_length=200, blank=True)
    species = models.CharField(max_length=80, blank=True)
    started = models.CharField(max_length=40, blank=True)
    hours = models.CharField(max_length=40)
    held = models.PositiveIntegerField()
    dead = models.PositiveIntegerField()
    missing = models.PositiveIntegerField(default=0)
    water_temp = models.CharField(max_length=20, blank=True)
    note = models.CharField(max_length=500, blank=True)
    sent_id = models.UUIDField(null=True, blank=True, unique=True, editable=False, help_text="Of the form that sent it")

    class Meta:
        ordering = ("id",)

    def __str__(self) -> str:
        return gettext("%(get_kind_display)s, pen %(pen)s") % {
            "get_kind_display": self.get_kind_display(),
            "pen": self.pen or self.pk,
        }


class StudyPen(models.Model):
    """A pen under way: ``held`` fish put in at ``started``, to be watched for ``planned_hours``.

    ``record`` is its finished row, once it is ended.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    event = models.ForeignKey(Event, on_delete=models.PROTECT, related_name="study_pens")
    group = models.CharField(max_length=80)
    kind = models.CharField(max_length=20, choices=HoldingPen.Kind.choices)
    pen = models.CharField(max_length=80)
    source = models.CharField(max_length=200, blank=True)
    species = models.CharField(max_length=80, blank=True)
    started = models.DateTimeField()
    planned_hours = models.PositiveSmallIntegerField()
    held = models.PositiveIntegerField()
    note = models.CharField(max_length=500, blank=True)
    record = models.OneToOneField(
        HoldingPen, on_delete=models.SET_NULL, null=True, blank=True, related_name="study_pen"
    )

    class Meta:
        ordering = ("-kind", "pen", "id")
        constraints = (models.UniqueConstraint(fields=("event", "group", "pen"), name="one_study_pen_of_a_name"),)

    def __str__(self) -> str:
        return gettext("pen %(pen)s, %(get_kind_display)s") % {
            "pen": self.pen,
            "get_kind_display": self.get_kind_display().lower(),
        }


class PenCheck(models.Model):
    """A look into a pen: the fish found dead (and taken out), missing or escaped since the look before."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    pen = models.ForeignKey(StudyPen, on_delete=models.PROTECT, related_name="checks")
    at = models.DateTimeField()
    dead = models.PositiveIntegerField(default=0)
    missing = models.PositiveIntegerField(default=0)
    escaped = models.PositiveIntegerField(default=0)
    water_temp = models.CharField(max_length=20, blank=True)
    do = models.CharField(max_length=40, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ("at", "id")

    def __str__(self) -> str:
        return gettext("check of %(pen)s") % {"pen": self.pen}
