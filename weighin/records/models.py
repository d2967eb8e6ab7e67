"""What rows that are only added and corrected by new ones have in common."""

from datetime import datetime

from django.db import models

from weighin.audit.models import AppendOnlyQuerySet


class CurrentQuerySet(AppendOnlyQuerySet):
    def current(self) -> "CurrentQuerySet":
        """Rows that nothing replaces and that are no voids."""
        return self.filter(replaced_by__isnull=True, void=False)

    def current_at(self, moment: datetime) -> "CurrentQuerySet":
        """Rows received by ``moment`` that nothing received by then replaces and that are no voids."""
        later = models.Q(replaced_by__isnull=True) | models.Q(replaced_by__received_at__gt=moment)
        return self.filter(later, received_at__lte=moment, void=False)
