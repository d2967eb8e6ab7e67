"""What rows that are only added and corrected by new ones have in common."""

import uuid
from collections.abc import Mapping
from datetime import datetime

from django.db import models
from django.utils import timezone

from weighin.audit.models import AppendOnly, AppendOnlyQuerySet


class Since(datetime):
    """A moment as of which rows are shown, and the last place of each kind of row by then, by the model's label.

    A clock may go back: a row that came later then says an earlier time, but has a later place.
    """

    ends: Mapping[str, int]

    @classmethod
    def of(cls, moment: datetime, ends: Mapping[str, int]) -> "Since":
        """The moment with these last places."""
        since = cls.combine(moment.date(), moment.timetz())
        since.ends = ends
        return since


def end_of(moment: datetime, label: str) -> int | None:
    """The last place that a kind of row had at the moment; None where the clock alone tells."""
    return moment.ends.get(label) if isinstance(moment, Since) else None


class CurrentQuerySet(AppendOnlyQuerySet):
    def current(self) -> "CurrentQuerySet":
        """Rows that nothing replaces and that are no voids."""
        return self.filter(replaced_by__isnull=True, void=False)

    def current_at(self, moment: datetime) -> "CurrentQuerySet":
        """Rows received by ``moment`` that nothing received by then replaces and that are no voids."""
        return self.received_by(moment).filter(
            models.Q(replaced_by__isnull=True) | self._later(moment, "replaced_by__"), void=False
        )

    def received_by(self, moment: datetime) -> "CurrentQuerySet":
        """Rows received by ``moment``, by the clock and by their place."""
        return self.exclude(self._later(moment))

    def _later(self, moment: datetime, of: str = "") -> models.Q:
        last = end_of(moment, self.model._meta.label)
        later = models.Q(**{f"{of}received_at__gt": moment})
        return later if last is None else later | models.Q(**{f"{of}{self.model.PLACE}__gt": last})


class Correctable(AppendOnly):
    """A numbered row of an event. It is corrected, or taken back as a ``void``, by a later one that ``replaces`` it."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    number = models.PositiveIntegerField()
    replaces = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by")
    reason = models.CharField(max_length=500, blank=True)
    void = models.BooleanField(default=False)
    received_at = models.DateTimeField(default=timezone.now)
    recorded_by = models.CharField(max_length=150)

    objects = CurrentQuerySet.as_manager()  # type: ignore[misc]
    PLACE = "number"

    class Meta:
        abstract = True
