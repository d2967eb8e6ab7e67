"""What a club has decided about the names it keeps, and what it says to those whose names they are."""

from django.db import models

from weighin.clubs.models import Club

LONGEST_NOTICE = 8000


class ClubPrivacy(models.Model):
    """How many seasons a club keeps anglers' names (blank: until they are erased), and its own privacy notice.

    A club without a row has not decided, and says what the site says.
    """

    club = models.OneToOneField(Club, on_delete=models.CASCADE, related_name="privacy")
    keep_seasons = models.PositiveSmallIntegerField(null=True, blank=True)
    decided = models.BooleanField(default=False)
    notice = models.TextField(max_length=LONGEST_NOTICE, blank=True)

    def __str__(self) -> str:
        return f"{self.club}: {self.keep_seasons or 'no'} seasons"
