"""People who sign in."""

from django.contrib.auth.models import AbstractUser


class User(AbstractUser):
    """A person with a user name and a password; what they may do hangs on their memberships in clubs."""

    def __str__(self) -> str:
        return self.get_full_name() or self.username
