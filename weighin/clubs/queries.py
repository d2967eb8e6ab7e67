"""A club's members, invitations and security log, and a person's clubs."""

from hashlib import sha256
from typing import Any

from django.db.models import Q, QuerySet
from django.utils import timezone

from weighin.accounts.domain.around import Around
from weighin.accounts.domain.roles import Role
from weighin.accounts.models import SecurityEntry
from weighin.clubs.domain import clock
from weighin.clubs.models import Club, Invitation, Membership


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
    """The time zone of the club's latest event; while it has none, that in which a new event begins."""
    return clock.latest_zone(club) or clock.BEFORE_ITS_EVENTS


def around_person(user: Any) -> Around:
    """What accounts must know of a person's clubs.

    A club may ask its directors for a second factor; one without it must set it up at the next sign-in. That waits on
    the day of an event: nobody stands before the scales and cannot sign in because a telephone is missing.
    """
    memberships = clubs_of(user)
    directed = [one for one in memberships if one.role == Role.DIRECTOR]
    asked = [one.club_id for one in directed if one.club.asks_second_factor]
    return Around(
        clubs=tuple(one.club.name for one in memberships),
        clock=clock_of(memberships[0].club) if memberships else clock.BEFORE_ITS_EVENTS,
        directs=bool(directed),
        second_factor_asked=bool(asked),
        second_factor_can_wait=bool(asked) and clock.fishes_today([one.club_id for one in memberships]),
    )


def open_invitations(club: Club) -> QuerySet[Invitation]:
    """Places in the club that are offered and not yet answered."""
    return _open().filter(club=club)


def invitations_for(user: Any) -> QuerySet[Invitation]:
    """Places that are offered to a person, with their clubs."""
    return _open().filter(user=user)


def invitation_of(token: str) -> Invitation | None:
    """The open invitation of a link."""
    return _open().filter(digest=digest_of_link(token)).first()


def digest_of_link(token: str) -> str:
    """What is kept of a link: 256 random bits need no slow hash."""
    return sha256(token.encode()).hexdigest()


def security_entries(club: Club) -> QuerySet[SecurityEntry]:
    """The security log of a club: its own entries, and those of its people that are of no club, newest first.

    Wrong tries of names that nobody has are shown where the site has one club alone.
    """
    people = club.memberships.values("user")
    mine = Q(club_id=club.pk) | Q(club_id__isnull=True, person_id__in=people)
    if Club.objects.count() == 1:
        mine |= Q(club_id__isnull=True, person_id__isnull=True)
    return SecurityEntry.objects.filter(mine).order_by("-id")


def _open() -> QuerySet[Invitation]:
    return Invitation.objects.filter(closed_at__isnull=True, ends_at__gt=timezone.now()).select_related("club", "user")
