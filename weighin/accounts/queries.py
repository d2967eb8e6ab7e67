"""People by their user names."""

from weighin.accounts.models import User


def person_named(username: str) -> User | None:
    """The person of a user name, whatever its case."""
    return User.objects.filter(username__iexact=username.strip()).first()


def nobody_yet() -> bool:
    """Whether the site is new: no person is in it."""
    return not User.objects.exists()
