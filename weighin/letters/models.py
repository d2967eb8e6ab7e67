"""E-mail on its way: a row is written with what it tells of, and sent after that is kept."""

import uuid

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy


class Letter(models.Model):
    """An e-mail that waits to be sent, or was. Club and event are plain ids: the queue knows no other table.

    ``key`` says what it tells of, and no other letter has it: so it goes once. ``address_mark`` is a keyed digest of the
    address. Once it is sent, or given up, address and words are blank: nothing of a person is left.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    key = models.CharField(max_length=120, unique=True)
    club_id = models.BigIntegerField(null=True, blank=True)
    event_id = models.BigIntegerField(null=True, blank=True)
    address = models.CharField(max_length=254, blank=True)
    address_mark = models.CharField(max_length=64, db_index=True)
    subject = models.CharField(max_length=200, blank=True)
    body = models.TextField(blank=True)
    made_at = models.DateTimeField(default=timezone.now)
    due_at = models.DateTimeField(default=timezone.now, db_index=True)
    apart_seconds = models.PositiveIntegerField(default=0)
    tries = models.PositiveSmallIntegerField(default=0)
    held_until = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    given_up_at = models.DateTimeField(null=True, blank=True)
    wrong = models.CharField(max_length=200, blank=True)

    class Meta:
        verbose_name = gettext_lazy("letter")
        verbose_name_plural = gettext_lazy("letters")
        ordering = ("due_at", "made_at")

    def __str__(self) -> str:
        return self.key
