"""Sign in, and change one's password."""

from math import ceil
from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib.auth import authenticate
from django.http import HttpRequest
from django.utils.translation import gettext, gettext_lazy

from weighin.accounts.models import SecurityEntry, User
from weighin.accounts.queries.people import person_named
from weighin.accounts.services import throttle
from weighin.accounts.services.known_browsers import place_of
from weighin.accounts.services.security_log import log_refusal
from weighin.ui.forms.service import ServiceForm

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

WRONG = gettext_lazy(
    "User name and password do not go together. Check capitals in the password and try again; a director of your club can give you a new one."
)
PASSWORD_HELP = gettext_lazy("Eight characters or more. Four words are easy to keep in mind.")


def password_field(label: "StrOrPromise", new: bool = True, **kwargs: Any) -> forms.CharField:
    """A password to write, known to password managers as a new or the current one."""
    widget = forms.PasswordInput(attrs={"autocomplete": "new-password" if new else "current-password"})
    return forms.CharField(label=label, widget=widget, strip=False, max_length=200, **kwargs)


class SignInForm(forms.Form):
    """User name and password; ``person`` is who they belong to once the form is valid."""

    username = forms.CharField(
        label=gettext_lazy("User name"),
        max_length=150,
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none", "spellcheck": "false"}),
    )
    password = password_field(gettext_lazy("Password"), new=False)

    def __init__(self, request: HttpRequest, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.request = request
        self.person: User | None = None

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if self.errors:
            return data
        username = data["username"]
        address = place_of(self.request, username)
        wait = throttle.seconds_to_wait(username, address)
        if wait:
            raise forms.ValidationError(
                gettext("Too many wrong tries one after another. Wait %(wait)s s, then send it again.")
                % {"wait": ceil(wait)}
            )
        known = person_named(username)
        found = authenticate(self.request, username=known.username if known else username, password=data["password"])
        if not isinstance(found, User):
            throttle.wrong_try(username, address)
            # Of a name that nobody has nothing is kept: people write their password there
            log_refusal(SecurityEntry.Kind.WRONG_PASSWORD, known)
            raise forms.ValidationError(WRONG)
        throttle.right_try(username, address)
        self.person = found
        return data


class NewPasswordForm(ServiceForm):
    """A password of one's own, twice."""

    password = password_field(
        gettext_lazy("Password"),
        help_text=PASSWORD_HELP,
    )
    again = password_field(gettext_lazy("Password once more"))
    differs: "StrOrPromise" = gettext_lazy("It differs from the password. Write the same one twice.")

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if data.get("password") and data.get("again") and data["password"] != data["again"]:
            self.add_error("again", str(self.differs))
        return data


class ChangePasswordForm(NewPasswordForm):
    """Another password, by the one there is."""

    old = password_field(gettext_lazy("Password now"), new=False)
    password = password_field(gettext_lazy("New password"), help_text=PASSWORD_HELP)
    again = password_field(gettext_lazy("New password once more"))
    differs = gettext_lazy("It differs from the new password. Write the same one twice.")
    field_order = ("old", "password", "again")


class CodeForm(ServiceForm):
    """A code of the second factor, or a recovery code."""

    code = forms.CharField(
        label=gettext_lazy("Code"),
        max_length=40,
        widget=forms.TextInput(
            attrs={"autocomplete": "one-time-code", "autocapitalize": "none", "spellcheck": "false"}
        ),
    )
