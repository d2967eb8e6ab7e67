"""Figures that are made public once and stay as they are."""

from django.db import models
from django.utils import timezone

from weighin.audit.models import AppendOnly


class PublishedOnce(AppendOnly):
    """Figures given out under a ``key`` and never worked out again.

    Two versions of a sum that differ by one boat's or one club's fish tell of that boat or club; so a later correction
    or a late event changes nothing here. ``content`` is plain JSON; not all of it need be public.
    """

    key = models.CharField(max_length=120, unique=True)
    content = models.JSONField()
    made_at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ("made_at", "id")
        verbose_name_plural = "published once"

    def __str__(self) -> str:
        return self.key
