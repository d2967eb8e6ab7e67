"""What keeps programs that fill in forms out, without asking anybody else: a stamp, a trap, a count of each network."""

from datetime import timedelta
from uuid import UUID, uuid4

from django.core import signing
from django.core.cache import cache

from weighin.rules.faults import Fault
from weighin.serving.routing import network_of
from weighin.signup.domain import faults

LEAST_SECONDS = 3  # common practice, no source: nobody writes a team and a phone number in less
LONGEST = timedelta(hours=12)
MOST_AN_HOUR = 20  # kept sign-ups of one network: a club's meeting shares one address
MOST_TRIES_AN_HOUR = 120
HOUR_SECONDS = 60 * 60
SALT = "weighin.signup.form"


def new_stamp(event_id: int) -> str:
    """What a page carries: the id of the sign-up that it will send, and when it was made, signed."""
    return signing.dumps([event_id, str(uuid4())], salt=SALT)


def read_stamp(stamp: str, event_id: int) -> tuple[UUID | None, list[Fault]]:
    """The id of a page's stamp, and what is wrong with it; no id where another page must be made."""
    try:
        of, id = signing.loads(stamp, salt=SALT, max_age=LONGEST)
        if of != event_id:
            return None, [faults.NOT_OURS.at("")]
    except signing.SignatureExpired:
        return None, [faults.TOO_OLD.at("")]
    except (signing.BadSignature, ValueError, TypeError):
        return None, [faults.NOT_OURS.at("")]
    try:
        signing.loads(stamp, salt=SALT, max_age=LEAST_SECONDS)
    except signing.SignatureExpired:
        return UUID(id), []
    return UUID(id), [faults.TOO_FAST.at("")]


def trapped(written: str) -> list[Fault]:
    """Whether a line was filled in that people do not see."""
    return [faults.TRAP.at("")] if written else []


def too_often(address: str) -> list[Fault]:
    """Count a try of the network that an address is of; a fault once it has tried, or signed up, too often."""
    if _count("tries", address) > MOST_TRIES_AN_HOUR or cache.get(_key("kept", address), 0) >= MOST_AN_HOUR:
        return [faults.TOO_OFTEN.at("")]
    return []


def count_kept(address: str) -> None:
    """Count a sign-up that was kept."""
    _count("kept", address)


def _count(what: str, address: str) -> int:
    key = _key(what, address)
    cache.add(key, 0, HOUR_SECONDS)
    try:
        return int(cache.incr(key))
    except ValueError:  # it ran out in between
        cache.set(key, 1, HOUR_SECONDS)
        return 1


def _key(what: str, address: str) -> str:
    return f"sign-up:{what}:{network_of(address)}"[:200]
