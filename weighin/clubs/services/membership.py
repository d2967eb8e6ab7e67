"""Bring people into a club, change what they are there, and take them out; one director always stays."""

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import SecurityEntry, User
from weighin.accounts.services.people import give_first_password
from weighin.accounts.services.security_log import log_security
from weighin.audit.services import log_history, writing
from weighin.clubs.domain import dependents
from weighin.clubs.domain.faults import (
    LAST_DIRECTOR,
    MEMBER_GONE,
    NO_SUCH_ROLE,
    PASSWORD_OF_OTHER_CLUB_TOO,
)
from weighin.clubs.models import Club, Membership
from weighin.rules.faults import Faults, Listed


def join(club: Club, person: User, role: str, by: str) -> Membership:
    """Make a person a member of the club, who has said yes or is new; call inside ``writing``."""
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
    known_role(role)
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
        log_security(SecurityEntry.Kind.ROLE, actor=by, club_id=locked.club_id, about=sentence)


def remove_member(membership: Membership, by: str) -> None:
    """Take a member out of the club; what they wrote stays under their name. Raises Faults for the last director."""
    with writing():
        locked = _locked(membership)
        if locked.role == Role.DIRECTOR:
            _another_director(locked, "")
        person, club = locked.user, locked.club
        locked.delete()
        dependents.changed.send(Membership, club_id=club.pk)
        said = f"{person} is no longer a member of {club}"
        log_history(
            by, "member.removed", said, club_id=club.pk, subject=person.username, details={"role": membership.role}
        )
        log_security(SecurityEntry.Kind.ROLE, actor=by, club_id=club.pk, about=said)


def give_password(membership: Membership, by: str) -> str:
    """Give a member who forgot it a new first password, random and told here alone; it is changed at the next sign-in.

    Raises Faults for people of other clubs: their password opens more than this club.
    """
    person = membership.user
    if person.is_superuser or person.memberships.exclude(club=membership.club_id).exists():
        raise Faults([PASSWORD_OF_OTHER_CLUB_TOO.at("", person=str(person))])
    with writing():
        password = give_first_password(person, by)
        log_history(
            by, "member.password", f"{person} got a new first password", club_id=membership.club_id, subject=person.username
        )  # fmt: skip
    return password


def ask_second_factor(club: Club, asked: bool, by: str) -> None:
    """Ask the club's directors for a second factor from their next sign-in on, or no longer."""
    with writing():
        club.asks_second_factor = asked
        club.save(update_fields=["asks_second_factor"])
        said = f"Directors of {club} must have a second factor" if asked else f"A second factor is optional in {club}"
        log_history(by, "club.second_factor", said, club_id=club.pk)
        log_security(SecurityEntry.Kind.ROLE, actor=by, club_id=club.pk, about=said)


def known_role(role: str) -> None:
    """Raises Faults for ``role`` when there is no such role."""
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
