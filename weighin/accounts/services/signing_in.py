"""What stands between a right password and being signed in: the code, a password of one's own, a second factor.

Until all of it is done nobody is signed in: the session holds only who asks, for ten minutes.
"""

from enum import Enum
from time import time
from typing import Any

from django.utils.crypto import constant_time_compare

from weighin.accounts.domain.around import around
from weighin.accounts.models import SecondFactor, User

ASKING, MOST_SECONDS = "asking", 10 * 60


class Step(Enum):
    """What is asked for next."""

    CODE = "code"
    PASSWORD = "password"
    FACTOR = "factor"


def begin_asking(session: Any, person: User, onward: str) -> None:
    """Somebody wrote the person's password."""
    session.cycle_key()
    session[ASKING] = {"person": person.pk, "of": person.get_session_auth_hash(), "at": time(), "onward": onward}
    session.set_expiry(MOST_SECONDS)


def who_asks(session: Any) -> User | None:
    """The person whose password was right, or None: nobody, too long ago, or it was changed since."""
    asking = session.get(ASKING)
    if not asking or time() - asking["at"] > MOST_SECONDS:
        return None
    person = User.objects.filter(pk=asking["person"], is_active=True).first()
    if person is None or not constant_time_compare(person.get_session_auth_hash(), asking["of"]):
        return None
    return person


def next_step(session: Any, person: User) -> Step | None:
    """What is still asked for; None when the person may go on."""
    asking = session.get(ASKING) or {}
    has_factor = SecondFactor.objects.filter(user=person).exists()
    if has_factor and not asking.get("code"):
        return Step.CODE
    if person.first_password:
        return Step.PASSWORD
    clubs = around(person)
    if clubs.second_factor_asked and not has_factor and not clubs.second_factor_can_wait:
        return Step.FACTOR
    return None


def step_done(session: Any, person: User, step: Step) -> None:
    """A step is done; a new password is what the rest is asked beside."""
    session[ASKING] = {**session[ASKING], step.value: True, "of": person.get_session_auth_hash()}


def end_asking(session: Any) -> str:
    """All is done: the page that was asked for before."""
    return str((session.pop(ASKING, None) or {}).get("onward", ""))
