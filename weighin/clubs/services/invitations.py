"""Invite people into a club. Nobody is a member before saying yes, by the link or on the page of their clubs.

A link is good once and for a week. Only its SHA-256 is kept, so it is told when it is made and never again.
"""

import secrets
from datetime import timedelta

from django.utils import timezone

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import SecurityEntry, User
from weighin.accounts.queries.people import person_named
from weighin.accounts.services.people import make_person, make_person_with_first_password
from weighin.accounts.services.security_log import log_security
from weighin.audit.services import log_history, writing
from weighin.clubs.domain.faults import INVITATION_OVER, INVITED_ALREADY, MEMBER_ALREADY
from weighin.clubs.models import Club, Invitation, Membership
from weighin.clubs.queries import digest_of_link, invitation_of, invitations_for
from weighin.clubs.services.membership import join, known_role
from weighin.rules.faults import Faults, Wrong
from weighin.rules.look_alikes import name_line

LASTS = timedelta(days=7)
LINK_BYTES = 32


def invite_by_link(club: Club, name: str, role: str, by: User) -> tuple[Invitation, str]:
    """Offer a place to whoever opens the link; the link's random end. Raises Faults for ``name`` and ``role``.

    ``name`` is for the list of open invitations alone; who opens the link writes their own.
    """
    known_role(role)
    try:
        name = name_line(name)
    except Wrong as error:
        raise Faults([error.at("name")]) from None
    token = secrets.token_urlsafe(LINK_BYTES)
    with writing():
        made = _invite(club, name, role, by, digest=digest_of_link(token))
    return made, token


def bring_in(club: Club, username: str, name: str, role: str, by: User) -> tuple[Membership | Invitation, str]:
    """Bring in a person of a user name: a new one gets a random first password, which is told here and never again.

    Somebody whose user name it is already is asked, and no member before the yes. Raises Faults for ``username``,
    ``name`` and ``role``.
    """
    known_role(role)
    with writing():
        person = person_named(username)
        if person is None:
            person, password = make_person_with_first_password(username, name, by.username)
            return join(club, person, role, by.username), password
        if Membership.objects.filter(user=person, club=club).exists():
            raise Faults([MEMBER_ALREADY.at("username", username=person.username, club=str(club))])
        if invitations_for(person).filter(club=club).exists():
            raise Faults([INVITED_ALREADY.at("username", username=person.username, club=str(club))])
        return _invite(club, str(person), role, by, user=person), ""


def accept_as_new(token: str, username: str, password: str, name: str) -> Membership:
    """Say yes by the link as somebody who is new here. Raises Faults for ``username``, ``password`` and ``name``."""
    with writing():
        invitation = _taken(invitation_of(token))
        person = make_person(username, password, name, club=invitation.club.name)
        return _join(invitation, person)


def accept_as(token: str, person: User) -> Membership:
    """Say yes by the link as somebody who is signed in. Raises Faults when it is over, or who is a member already."""
    with writing():
        return _join(_taken(invitation_of(token)), person)


def answer(invitation_pk: int, person: User, yes: bool) -> Invitation:
    """Say yes or no to an invitation of one's own. Raises Faults when it is over."""
    with writing():
        invitation = _taken(invitations_for(person).filter(pk=invitation_pk).first())
        if yes:
            _join(invitation, person)
        else:
            _close(invitation)
            _note(invitation, SecurityEntry.Kind.INVITATION_WITHDRAWN, person, f"{person} declined")
    return invitation


def withdraw(invitation: Invitation, by: User) -> None:
    """Take an offer back: its link opens nothing from now on. Raises Faults when it was used meanwhile."""
    with writing():
        _close(_taken(invitation))
        said = f"The invitation of {invitation.name} to {invitation.club} is withdrawn"
        _note(invitation, SecurityEntry.Kind.INVITATION_WITHDRAWN, by, said)


def _invite(
    club: Club, name: str, role: str, by: User, digest: str | None = None, user: User | None = None
) -> Invitation:
    made = Invitation.objects.create(
        club=club, name=name, role=role, made_by=by.username, ends_at=timezone.now() + LASTS, digest=digest, user=user
    )
    said = f"{name} is invited to {club} as {Role(role).label.lower()}"
    _note(made, SecurityEntry.Kind.INVITED, by, said)
    return made


def _taken(invitation: Invitation | None) -> Invitation:
    """The invitation, for this write alone. Raises Faults when it is over."""
    held = invitation and Invitation.objects.select_for_update().filter(pk=invitation.pk).first()
    if not held or held.closed_at is not None or held.ends_at <= timezone.now():
        raise Faults([INVITATION_OVER.at("")])
    return held


def _join(invitation: Invitation, person: User) -> Membership:
    if Membership.objects.filter(user=person, club=invitation.club).exists():
        raise Faults([MEMBER_ALREADY.at("", username=person.username, club=str(invitation.club))])
    _close(invitation)
    log_security(
        SecurityEntry.Kind.INVITATION_USED, person, club_id=invitation.club_id, about=f"made by {invitation.made_by}"
    )
    return join(invitation.club, person, invitation.role, invitation.made_by)


def _close(invitation: Invitation) -> None:
    invitation.closed_at = timezone.now()
    invitation.save(update_fields=["closed_at"])


def _note(invitation: Invitation, kind: str, by: User, said: str) -> None:
    act = {SecurityEntry.Kind.INVITED: "member.invited"}.get(SecurityEntry.Kind(kind), "member.invitation_closed")
    log_history(by.username, act, said, club_id=invitation.club_id, subject=invitation.name)
    log_security(kind, by, club_id=invitation.club_id, about=said)
