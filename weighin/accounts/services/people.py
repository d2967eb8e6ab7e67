"""Make people and set their passwords."""

import unicodedata

from django.contrib.auth.password_validation import validate_password
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.core.exceptions import ValidationError

from weighin.accounts.domain.around import around
from weighin.accounts.domain.faults import (
    GUESSED_PASSWORD,
    NOT_YOUR_PASSWORD,
    ODD_USER_NAME,
    PERSON_WITHOUT_NAME,
    SAME_PASSWORD,
    USER_NAME_LOOKS_LIKE,
    USER_NAME_TAKEN,
    WEAK_PASSWORD,
)
from weighin.accounts.domain.guesses import guessed
from weighin.accounts.models import SecurityEntry, User
from weighin.accounts.queries.people import look_alike, person_named
from weighin.accounts.services.security_log import log_security
from weighin.accounts.services.sessions import end_sessions
from weighin.audit.queries import has_acted
from weighin.audit.services import log_history, writing
from weighin.environment import random_word
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.rules.look_alikes import name_line

FIRST_PASSWORD_GROUPS = 5  # 63 bits


def make_person(username: str, password: str, name: str, by: str = "", club: str = "", first: bool = False) -> User:
    """Add a person who can sign in, and will be in ``club``; with a ``first`` password, only to choose another one.

    Raises Faults for ``username``, ``password`` and ``name``.
    """
    username = unicodedata.normalize("NFKC", username.strip())
    person = User(username=username, first_password=first)
    faults = [*_name_faults(name), *_username_faults(username)]
    person.first_name = " ".join(name.split())[:150]
    faults += _password_faults(password, person, club)
    if faults:
        raise Faults(faults)
    with writing():
        person.set_password(password)
        person.save()
        log_history(by or username, "person.added", f"{username} can sign in", subject=username)
    return person


def make_person_with_first_password(username: str, name: str, by: str) -> tuple[User, str]:
    """Add a person with a random password, which is told here and never again. Raises Faults as ``make_person``."""
    password = random_word(FIRST_PASSWORD_GROUPS)
    return make_person(username, password, name, by, first=True), password


def give_first_password(person: User, by: str) -> str:
    """Give a person who forgot it a random password, which is told here and never again."""
    password = random_word(FIRST_PASSWORD_GROUPS)
    set_password(person, password, by, first=True)
    return password


def set_password(person: User, password: str, by: str, first: bool = False, keep_session: str = "") -> None:
    """Give a person a new password; every session of theirs ends but that of the key ``keep_session``.

    With a ``first`` one, which another person knows, nothing opens before it is changed. Raises Faults for
    ``password`` when it is too weak.
    """
    faults = _password_faults(password, person)
    if faults:
        raise Faults(faults)
    with writing():
        person.set_password(password)
        person.first_password = first
        person.save(update_fields=["password", "first_password"])
        end_sessions(person, besides=keep_session)
        log_history(by, "person.password", f"{person.username} has a new password", subject=person.username)
        log_security(SecurityEntry.Kind.PASSWORD, person, about="" if by == person.username else f"by {by}")


def change_password(person: User, old: str, new: str, keep_session: str = "") -> None:
    """Change one's own password; the old one proves who asks. Raises Faults for ``old`` and ``password``."""
    if not person.check_password(old):
        raise Faults([NOT_YOUR_PASSWORD.at("old")])
    set_password(person, new, person.username, keep_session=keep_session)


def replace_first_password(person: User, new: str) -> None:
    """Change the password that another person gave. Raises Faults for ``password``."""
    if person.check_password(new):
        raise Faults([SAME_PASSWORD.at("password")])
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
    try:
        name_line(username)
    except Wrong as error:
        return [error.at("username")]
    like = look_alike(username)
    return [USER_NAME_LOOKS_LIKE.at("username", username=like.username)] if like else []


def _name_faults(name: str) -> list[Fault]:
    try:
        return [] if name_line(name) else [PERSON_WITHOUT_NAME.at("name")]
    except Wrong as error:
        return [error.at("name")]


def _password_faults(password: str, person: User, club: str = "") -> list[Fault]:
    try:
        validate_password(password, person)
    except ValidationError as error:
        return [WEAK_PASSWORD.at("password", why=" ".join(error.messages))]
    said = guessed(password, [person.username, person.first_name, person.last_name, club, *around(person).clubs])
    return [GUESSED_PASSWORD.at("password", said=said)] if said else []
