"""Make people and set their passwords."""

from django.contrib.auth.password_validation import validate_password
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.core.exceptions import ValidationError

from weighin.accounts.domain.faults import (
    NOT_YOUR_PASSWORD,
    ODD_USER_NAME,
    PERSON_WITHOUT_NAME,
    USER_NAME_TAKEN,
    WEAK_PASSWORD,
)
from weighin.accounts.models import User
from weighin.accounts.queries import person_named
from weighin.audit.queries import has_acted
from weighin.audit.services import log_history, writing
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.rules.values import line


def make_person(username: str, password: str, name: str, by: str = "") -> User:
    """Add a person who can sign in. Raises Faults for ``username``, ``password`` and ``name``."""
    username = username.strip()
    person = User(username=username)
    faults = [*_name_faults(name), *_username_faults(username)]
    person.first_name = " ".join(name.split())[:150]
    faults += _password_faults(password, person)
    if faults:
        raise Faults(faults)
    with writing():
        person.set_password(password)
        person.save()
        log_history(by or username, "person.added", f"{username} can sign in", subject=username)
    return person


def set_password(person: User, password: str, by: str) -> None:
    """Give a person a new password. Raises Faults for ``password`` when it is too weak."""
    faults = _password_faults(password, person)
    if faults:
        raise Faults(faults)
    with writing():
        person.set_password(password)
        person.save(update_fields=["password"])
        log_history(by, "person.password", f"{person.username} has a new password", subject=person.username)


def change_password(person: User, old: str, new: str) -> None:
    """Change one's own password; the old one proves who asks. Raises Faults for ``old`` and ``password``."""
    if not person.check_password(old):
        raise Faults([NOT_YOUR_PASSWORD.at("old")])
    set_password(person, new, person.username)


def _username_faults(username: str) -> list[Fault]:
    try:
        if len(username) > 150:
            raise ValidationError("")
        UnicodeUsernameValidator()(username)
    except ValidationError:
        return [ODD_USER_NAME.at("username")]
    # Rows of somebody whose account was erased keep the user name: nobody else may sign under it
    if person_named(username) is not None or has_acted(username):
        return [USER_NAME_TAKEN.at("username", username=username)]
    return []


def _name_faults(name: str) -> list[Fault]:
    try:
        return [] if line(name) else [PERSON_WITHOUT_NAME.at("name")]
    except Wrong as error:
        return [error.at("name")]


def _password_faults(password: str, person: User) -> list[Fault]:
    try:
        validate_password(password, person)
    except ValidationError as error:
        return [WEAK_PASSWORD.at("password", why=" ".join(error.messages))]
    return []
