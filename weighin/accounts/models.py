"""People who sign in, where they are signed in, their second factor, and the security log."""

from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy


class User(AbstractUser):
    """A person with a user name and a password; what they may do hangs on their memberships in clubs."""

    # Somebody else knows it: nothing opens with it but the page for another one
    first_password = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.get_full_name() or self.username


class Device(models.Model):
    """A browser in which a person is signed in, by the key of its session; gone when that ends."""

    user = models.ForeignKey(User, on_delete=models.CASCADE, related_name="devices")
    session_key = models.CharField(max_length=40, unique=True)
    words = models.CharField(max_length=80)
    address = models.CharField(max_length=45)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ("-at",)

    def __str__(self) -> str:
        return f"{self.user}: {self.words}"


class SecondFactor(models.Model):
    """The key that a person's telephone makes codes from (RFC 6238).

    It is kept as it is, as any checker of codes must: who reads the database file has it, but not the password.
    """

    user = models.OneToOneField(User, on_delete=models.CASCADE, related_name="second_factor")
    key = models.CharField(max_length=64)
    # The latest step whose code was used: no code opens twice
    step = models.BigIntegerField(default=0)
    at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return f"second factor of {self.user}"


class RecoveryCode(models.Model):
    """One of ten codes on paper that open once in the place of the telephone; only its SHA-256 is kept."""

    user = models.ForeignKey(User, on_delete=models.CASCADE, related_name="recovery_codes")
    digest = models.CharField(max_length=64)
    used_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("user", "digest"), name="one_recovery_code_of_a_digest"),)

    def __str__(self) -> str:
        return f"recovery code of {self.user}"


class SecurityEntry(models.Model):
    """Who signed in or was refused, from where. Never a password, code, token or key.

    Person, club and event are plain ids and a text, so that it outlives them. The same thing from the same address
    within a minute is one entry that counts, so that nobody fills the disk; it is therefore no append-only table.
    """

    class Kind(models.TextChoices):
        SIGN_IN = "sign_in", gettext_lazy("Signed in")
        WRONG_PASSWORD = "wrong_password", gettext_lazy("Wrong password")
        WRONG_CODE = "wrong_code", gettext_lazy("Wrong code")
        SIGN_OUT = "sign_out", gettext_lazy("Signed out")
        REFUSED = "refused", gettext_lazy("Refused")
        TOKEN_REFUSED = "token_refused", gettext_lazy("Token refused")
        PAIRED = "paired", gettext_lazy("Tablet paired")
        WITHDRAWN = "withdrawn", gettext_lazy("Tablet withdrawn")
        PASSWORD = "password", gettext_lazy("Password changed")
        FACTOR_ON = "factor_on", gettext_lazy("Second factor on")
        FACTOR_OFF = "factor_off", gettext_lazy("Second factor off")
        RECOVERY = "recovery", gettext_lazy("Recovery code used")
        SESSION_ENDED = "session_ended", gettext_lazy("Signed out elsewhere")
        INVITED = "invited", gettext_lazy("Invitation added")
        INVITATION_USED = "invitation_used", gettext_lazy("Invitation used")
        INVITATION_WITHDRAWN = "invitation_withdrawn", gettext_lazy("Invitation withdrawn")
        ROLE = "role", gettext_lazy("Role changed")

    at = models.DateTimeField(default=timezone.now, db_index=True)
    last_at = models.DateTimeField(default=timezone.now)
    times = models.PositiveIntegerField(default=1)
    kind = models.CharField(max_length=30)
    person_id = models.BigIntegerField(null=True, blank=True, db_index=True)
    actor = models.CharField(max_length=150, blank=True)
    club_id = models.BigIntegerField(null=True, blank=True, db_index=True)
    address = models.CharField(max_length=45, blank=True)
    about = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("-id",)

    def __str__(self) -> str:
        return f"{self.at:%Y-%m-%d %H:%M} {self.kind} {self.actor}"
