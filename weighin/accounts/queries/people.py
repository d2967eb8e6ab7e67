"""People by their user names."""

import unicodedata

from django.db.models import Q

from weighin.accounts.models import User
from weighin.rules.look_alikes import look_of


def person_named(username: str) -> User | None:
    """The person of a user name, whatever its case and the width of its letters."""
    written = username.strip()
    normal = unicodedata.normalize("NFKC", written)
    return User.objects.filter(Q(username__iexact=written) | Q(username__iexact=normal)).first()


def look_alike(username: str) -> User | None:
    """Somebody whose user name a reader takes for this one. Names of ASCII letters alone are left to ``person_named``."""
    others = User.objects.all()
    if username.isascii():
        # Two ASCII names look alike when they are the same; of the others there are few
        others = others.exclude(username__regex=r"^[ -~]*$")
    look = look_of(username)
    return next((one for one in others.only("username") if look_of(one.username) == look), None)


def nobody_yet() -> bool:
    """Whether the site is new: no person is in it."""
    return not User.objects.exists()
