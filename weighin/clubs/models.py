"""Clubs, their seasons, waters and members."""

from django.conf import settings
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from weighin.accounts.domain.roles import Role


class Hours(models.IntegerChoices):
    """How a club writes the time of day."""

    TWELVE = 12, gettext_lazy("12 hours, AM and PM")
    WHOLE_DAY = 24, gettext_lazy("24 hours")


class Degrees(models.TextChoices):
    """How a club writes temperatures."""

    AS_WEIGHED = "", gettext_lazy("°F; °C in events weighed in kilograms")
    FAHRENHEIT = "F", gettext_lazy("°F")
    CELSIUS = "C", gettext_lazy("°C")


class Club(models.Model):
    """A club that runs tournaments. Members of one club see nothing of another's."""

    name = models.CharField(max_length=120, unique=True)
    slug = models.SlugField(max_length=120, unique=True)
    contact = models.CharField(
        max_length=200,
        blank=True,
        help_text=gettext_lazy("Who answers the agency, and how; in members' files only, never public"),
    )
    asks_second_factor = models.BooleanField(default=False, db_default=False)
    currency = models.CharField(
        max_length=5, default="$", db_default="$", help_text=gettext_lazy("The sign before amounts of money")
    )
    hours = models.PositiveSmallIntegerField(
        choices=Hours.choices, default=Hours.TWELVE, db_default=Hours.TWELVE, help_text=gettext_lazy("Its clock")
    )
    degrees = models.CharField(
        max_length=1,
        choices=Degrees.choices,
        default=Degrees.AS_WEIGHED,
        db_default=Degrees.AS_WEIGHED,
        blank=True,
        help_text=gettext_lazy("The unit of temperatures, and of one that is written without a unit"),
    )
    language = models.CharField(
        max_length=10,
        choices=settings.LANGUAGES,
        default="en",
        db_default="en",
        help_text=gettext_lazy("Of its e-mail and messages to teams, whoever sends them"),
    )
    is_open = models.BooleanField(
        default=False,
        db_default=False,
        help_text=gettext_lazy("Whether the public sees its calendar: name, water, dates and times of every event"),
    )

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name


class Season(models.Model):
    """A club's season: the events whose points and fish are added up together."""

    club = models.ForeignKey(Club, on_delete=models.PROTECT, related_name="seasons")
    name = models.CharField(max_length=80)
    slug = models.SlugField(max_length=80)
    rules = models.JSONField(
        default=dict, blank=True, help_text=gettext_lazy("Its points rules as written; empty: the latest event's count")
    )

    class Meta:
        ordering = ("-name",)
        constraints = (
            models.UniqueConstraint(fields=("club", "name"), name="one_season_of_a_name"),
            models.UniqueConstraint(fields=("club", "slug"), name="one_season_of_a_slug"),
        )

    def __str__(self) -> str:
        return self.name


class Water(models.Model):
    """A lake, reservoir or river stretch the club fishes."""

    club = models.ForeignKey(Club, on_delete=models.PROTECT, related_name="waters")
    name = models.CharField(max_length=120)
    elevation_ft = models.IntegerField(null=True, blank=True)
    county = models.CharField(max_length=80, blank=True)

    class Meta:
        ordering = ("name",)
        constraints = (models.UniqueConstraint(fields=("club", "name"), name="one_water_of_a_name"),)

    def __str__(self) -> str:
        return self.name


class Membership(models.Model):
    """A person's role in a club; one role a club."""

    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="memberships")
    club = models.ForeignKey(Club, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=30, choices=Role.choices)

    class Meta:
        ordering = ("user__username",)
        constraints = (models.UniqueConstraint(fields=("user", "club"), name="one_role_a_club"),)

    def __str__(self) -> str:
        return f"{self.user}, {self.get_role_display()} of {self.club}"


class Invitation(models.Model):
    """A place in a club that is offered: by a link that opens once, or to somebody who has a user name here.

    Nobody is a member before saying yes. Of the link only the SHA-256 is kept.
    """

    club = models.ForeignKey(Club, on_delete=models.CASCADE, related_name="invitations")
    role = models.CharField(max_length=30, choices=Role.choices)
    name = models.CharField(max_length=120)
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.CASCADE, null=True, blank=True, related_name="invitations"
    )
    digest = models.CharField(max_length=64, null=True, blank=True, unique=True)
    made_at = models.DateTimeField(default=timezone.now)
    made_by = models.CharField(max_length=150)
    ends_at = models.DateTimeField()
    # Accepted, declined or withdrawn
    closed_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("-made_at",)

    def __str__(self) -> str:
        return f"{self.name}, {self.get_role_display()} of {self.club}"
