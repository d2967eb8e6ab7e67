"""The second factor: turned on with a code, asked for at sign-in, and turned off again.

Nobody has to have one unless a club asks its directors for it (``clubs.queries.around``, which also says why nobody is
shut out on the day of an event). A lost telephone is no end: ten recovery codes on paper open once each, and whoever
owns the machine takes the factor off with ``manage.py second_factor_off``.
"""

from time import time

from django.utils import timezone

from weighin.accounts.domain.around import around
from weighin.accounts.domain.codes import digest_of, new_recovery_codes, step_of
from weighin.accounts.domain.faults import (
    FACTOR_IS_ASKED,
    FACTOR_ON_ALREADY,
    NOT_THE_APPS_CODE,
    NOT_THE_CODE,
    WAIT_FOR_CODE,
)
from weighin.accounts.models import RecoveryCode, SecondFactor, SecurityEntry, User
from weighin.accounts.services import throttle
from weighin.accounts.services.security_log import log_security
from weighin.audit.services import writing
from weighin.rules.faults import Faults


def turn_on(person: User, key: str, code: str) -> list[str]:
    """Turn the second factor on with a code that shows that the telephone has the key; the ten recovery codes.

    They are told here and never again. Raises Faults for ``code``.
    """
    step = step_of(code, key, time())
    if step is None:
        raise Faults([NOT_THE_APPS_CODE.at("code")])
    codes = new_recovery_codes()
    with writing():
        if SecondFactor.objects.filter(user=person).exists():
            raise Faults([FACTOR_ON_ALREADY.at("code")])
        SecondFactor.objects.create(user=person, key=key, step=step)
        RecoveryCode.objects.filter(user=person).delete()
        RecoveryCode.objects.bulk_create(RecoveryCode(user=person, digest=digest_of(one)) for one in codes)
        log_security(SecurityEntry.Kind.FACTOR_ON, person)
    return codes


def take_code(person: User, code: str, address: str) -> None:
    """Use a code of the telephone or a recovery code. Raises Faults for ``code``: wrong, used, or tried too often."""
    name = f"code {person.pk}"
    wait = throttle.seconds_to_wait(name, address)
    if wait:
        raise Faults([WAIT_FOR_CODE.at("code", wait=int(wait) + 1)])
    with writing():
        right = _use(person, code)
        if not right:
            log_security(SecurityEntry.Kind.WRONG_CODE, person)
    if not right:
        throttle.wrong_try(name, address)
        raise Faults([NOT_THE_CODE.at("code")])
    throttle.right_try(name, address)


def turn_off(person: User, code: str, address: str) -> None:
    """Turn one's own second factor off, with a code. Raises Faults for ``code``."""
    if around(person).second_factor_asked:
        raise Faults([FACTOR_IS_ASKED.at("code")])
    take_code(person, code, address)
    take_off(person)


def take_off(person: User, by: str = "") -> bool:
    """Take somebody's second factor away, without a code; whether there was one."""
    with writing():
        found, _ = SecondFactor.objects.filter(user=person).delete()
        RecoveryCode.objects.filter(user=person).delete()
        if found:
            log_security(SecurityEntry.Kind.FACTOR_OFF, person, about=f"by {by}" if by else "")
    return bool(found)


def _use(person: User, code: str) -> bool:
    """Whether the code is right; it is good no more then. Call inside ``writing``: of two at once one is first."""
    factor = SecondFactor.objects.filter(user=person).first()
    step = step_of(code, factor.key, time()) if factor else None
    if factor and step is not None:
        return bool(SecondFactor.objects.filter(pk=factor.pk, step__lt=step).update(step=step))
    unused = RecoveryCode.objects.filter(user=person, digest=digest_of(code), used_at__isnull=True)
    if not unused.update(used_at=timezone.now()):
        return False
    left = RecoveryCode.objects.filter(user=person, used_at__isnull=True).count()
    log_security(SecurityEntry.Kind.RECOVERY, person, about=f"{left} left")
    return True
