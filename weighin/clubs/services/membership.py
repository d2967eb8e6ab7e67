"""Bring people into a club, change what they are there, and take them out; one director always stays."""

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.accounts.queries import person_named
from weighin.accounts.services.people import make_person, set_password
from weighin.audit.services import log_history, writing
from weighin.clubs.domain import dependents
from weighin.clubs.domain.faults import (
    LAST_DIRECTOR,
    MEMBER_ALREADY,
    MEMBER_GONE,
    NO_FIRST_PASSWORD,
    NO_SUCH_ROLE,
    PASSWORD_OF_OTHER_CLUB_TOO,
    USER_NAME_TAKEN_ELSEWHERE,
)
from weighin.clubs.models import Club, Membership
from weighin.rules.faults import Faults, Listed


def add_member(club: Club, username: str, password: str, name: str, role: str, by: str) -> Membership:
    """Bring a person into the club: a new one with a first password, or (no password) one who has a user name already.

    Raises Faults for ``username``, ``password``, ``name`` and ``role``.
    """
    _known_role(role)
    with writing():
        person = person_named(username)
        if person is None:
            person = _new_person(username, password, name, by)
        elif Membership.objects.filter(user=person, club=club).exists():
            raise Faults([MEMBER_ALREADY.at("username", username=person.username, club=str(club))])
        elif password:
            raise Faults([USER_NAME_TAKEN_ELSEWHERE.at("username", username=person.username)])
        membership = Membership.objects.create(user=person, club=club, role=role)
        dependents.changed.send(Membership, club_id=club.pk)
        label = Role(role).label.lower()
        log_history(
            by, "member.added", f"{person} is {label} of {club}", club_id=club.pk, subject=person.username,
            details={"role": role},
        )  # fmt: skip
    return membership


def change_role(membership: Membership, role: str, by: str) -> None:
    """Change what a member is. Raises Faults for ``role``: the last director stays one."""
    _known_role(role)
    with writing():
        locked = _locked(membership)
        before = locked.role
        if before == Role.DIRECTOR != role:
            _another_director(locked, "role")
        locked.role = membership.role = role
        locked.save(update_fields=["role"])
        dependents.changed.send(Membership, club_id=locked.club_id)
        sentence = f"{locked.user} is now {Role(role).label.lower()}, was {Role(before).label.lower()}"
        log_history(
            by, "member.role", sentence, club_id=locked.club_id, subject=locked.user.username,
            details={"before": before, "after": role},
        )  # fmt: skip


def remove_member(membership: Membership, by: str) -> None:
    """Take a member out of the club; what they wrote stays under their name. Raises Faults for the last director."""
    with writing():
        locked = _locked(membership)
        if locked.role == Role.DIRECTOR:
            _another_director(locked, "")
        person, club = locked.user, locked.club
        locked.delete()
        dependents.changed.send(Membership, club_id=club.pk)
        log_history(
            by, "member.removed", f"{person} is no longer a member of {club}", club_id=club.pk, subject=person.username,
            details={"role": membership.role},
        )  # fmt: skip


def give_password(membership: Membership, password: str, by: str) -> None:
    """Give a member who forgot it a new first password.

    Raises Faults for ``password``, also for people of other clubs: their password opens more than this club.
    """
    person = membership.user
    if person.is_superuser or person.memberships.exclude(club=membership.club_id).exists():
        raise Faults([PASSWORD_OF_OTHER_CLUB_TOO.at("password", person=str(person))])
    with writing():
        set_password(person, password, by)
        log_history(
            by, "member.password", f"{person} got a new first password", club_id=membership.club_id, subject=person.username
        )  # fmt: skip


def _new_person(username: str, password: str, name: str, by: str) -> User:
    if not password:
        raise Faults([NO_FIRST_PASSWORD.at("password")])
    return make_person(username, password, name, by)


def _known_role(role: str) -> None:
    if role not in Role.values:
        raise Faults([NO_SUCH_ROLE.at("role", roles=Listed(tuple(Role.labels)))])


def _locked(membership: Membership) -> Membership:
    """The membership as it is now; the club's memberships stay as they are until the write ends."""
    list(Membership.objects.select_for_update().filter(club=membership.club_id).values_list("pk"))
    found = Membership.objects.select_related("user", "club").filter(pk=membership.pk).first()
    if found is None:
        raise Faults([MEMBER_GONE.at("", person=str(membership.user))])
    return found


def _another_director(membership: Membership, field: str) -> None:
    others = Membership.objects.filter(club=membership.club, role=Role.DIRECTOR).exclude(pk=membership.pk)
    if not others.exists():
        raise Faults([LAST_DIRECTOR.at(field, person=str(membership.user))])
