"""A club's members, seasons and waters, and a person's clubs."""

from typing import Any

from django.conf import settings
from django.db.models import QuerySet

from weighin.accounts.domain.roles import Role
from weighin.clubs.domain import clock
from weighin.clubs.models import Club, Membership


def members_of(club: Club) -> QuerySet[Membership]:
    """The club's members with their people, by user name."""
    return club.memberships.select_related("user", "club").order_by("user__username")


def clubs_of(user: Any) -> list[Membership]:
    """The person's memberships with their clubs, by name."""
    return list(Membership.objects.filter(user=user).select_related("club").order_by("club__name"))


def directs_a_club(user: Any) -> bool:
    """Whether the person is director of some club."""
    return Membership.objects.filter(user=user, role=Role.DIRECTOR).exists()


def clock_of(club: Club) -> str:
    """The time zone of the club's latest event; the site's own while it has none."""
    return clock.latest_zone(club) or settings.TIME_ZONE
