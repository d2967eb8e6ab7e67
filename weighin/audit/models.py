"""Rows that are only ever added, and the history of who did what."""

import uuid
from typing import Any, ClassVar, NoReturn

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy


class AppendOnlyError(Exception):
    """Raised when code tries to change or delete a row that may only be added."""


class AppendOnlyQuerySet(models.QuerySet[Any]):
    """Refuses every way of changing or deleting rows; reading and adding work as usual."""

    def _refuse(self, *args: Any, **kwargs: Any) -> NoReturn:
        raise AppendOnlyError(f"{self.model._meta.verbose_name} rows are only ever added: record a new one instead")

    update = _refuse
    delete = _refuse
    bulk_update = _refuse
    update_or_create = _refuse


class AppendOnly(models.Model):
    """A row that is added once and never changed or deleted.

    Three locks hold it: this class, its queryset, and database triggers made after migrate (``triggers.py``). Rows
    that ``GO_WHERE`` names (a column, its value, a foreign key) go once the row that this key names is gone, and not before.
    Rows that hang on one that is ``RemovedWhole`` go with it.
    """

    GO_WHERE: ClassVar[tuple[str, str, str] | None] = None

    objects = AppendOnlyQuerySet.as_manager()

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        if not self._state.adding:
            raise AppendOnlyError(f"this {self._meta.verbose_name} is already kept: record a new one instead")
        kwargs["force_insert"] = True
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> NoReturn:
        raise AppendOnlyError(f"a {self._meta.verbose_name} is never deleted")


class RemovedWhole(models.Model):
    """A row that may be removed with all that hangs on it, append-only rows too, where its ``REMOVED_WHERE_SET`` is set.

    That column is written with the row and never again, which a trigger holds: nothing can be made removable later.
    """

    REMOVED_WHERE_SET: ClassVar[str]

    class Meta:
        abstract = True


class HistoryEntry(AppendOnly):
    """Who did what, when, in words, with the values before and after.

    Club and event are plain ids, and the actor is a name, so that the history outlives what it speaks of.

    Each line is chained to the one before it in its event, else its club, else the site (``domain.lines``). ``bound``
    holds the seals of what the act left behind: ``{"boat 7": seal}``, null for what it took away. Lines that are older
    than the chain have no position; the first chained one binds them.
    """

    at = models.DateTimeField(default=timezone.now)
    actor = models.CharField(max_length=150)
    act = models.CharField(max_length=60)
    club_id = models.BigIntegerField(null=True, blank=True, db_index=True)
    event_id = models.BigIntegerField(null=True, blank=True)
    subject = models.CharField(max_length=120, blank=True)
    sentence = models.TextField()
    details = models.JSONField(default=dict, blank=True)
    bound = models.JSONField(null=True, blank=True)
    position = models.PositiveIntegerField(null=True, blank=True)
    digest = models.CharField(max_length=64, blank=True, default="")
    link = models.CharField(max_length=64, blank=True, default="")

    class Meta:
        verbose_name = gettext_lazy("history entry")
        verbose_name_plural = gettext_lazy("history entries")
        ordering = ("id",)
        # The ends of the chains are found by these too
        constraints = (
            models.UniqueConstraint(fields=("event_id", "position"), name="one_line_a_position_of_an_event"),
            models.UniqueConstraint(
                fields=("club_id", "position"),
                condition=models.Q(event_id__isnull=True),
                name="one_line_a_position_of_a_club",
            ),
            models.UniqueConstraint(
                fields=("position",),
                condition=models.Q(event_id__isnull=True, club_id__isnull=True),
                name="one_line_a_position_of_the_site",
            ),
        )

    def __str__(self) -> str:
        return f"{self.at:%Y-%m-%d %H:%M} {self.actor}: {self.sentence}"


class KeptAside(models.Model):
    """Words about a person that a history entry names by their mark alone (``domain.aside``).

    Erasing them takes this row away; the entry, and any chain it is bound into, stays as it was written.
    """

    mark = models.CharField(max_length=64, primary_key=True)
    salt = models.CharField(max_length=32)
    words = models.CharField(max_length=500)
    club_id = models.BigIntegerField(null=True, blank=True, db_index=True)
    event_id = models.BigIntegerField(null=True, blank=True, db_index=True)

    def __str__(self) -> str:
        return self.words


class DatabaseLife(models.Model):
    """The one row that says which life the database is in: a restore begins another (``queries.database_life``)."""

    key = models.UUIDField(default=uuid.uuid4)

    def __str__(self) -> str:
        return str(self.key)
