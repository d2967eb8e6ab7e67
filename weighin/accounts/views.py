"""Sign in, sign out, change password."""

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import login, logout, update_session_auth_hash
from django.contrib.auth.decorators import login_not_required, login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from weighin.accounts.forms import ChangePasswordForm, SignInForm
from weighin.accounts.models import User
from weighin.accounts.queries import nobody_yet
from weighin.accounts.services import people


@sensitive_post_parameters("password")
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@login_not_required
def sign_in(request: HttpRequest) -> HttpResponse:
    """User name and password; then on to the page that was asked for."""
    if nobody_yet():
        return redirect("clubs:begin")
    onward = _onward(request)
    if request.user.is_authenticated and request.method != "POST":
        return redirect(onward or settings.LOGIN_REDIRECT_URL)
    form = SignInForm(request, request.POST or None)
    if request.method == "POST" and form.is_valid() and form.person is not None:
        login(request, form.person)
        return redirect(onward or settings.LOGIN_REDIRECT_URL)
    return render(request, "accounts/sign_in.html", {"form": form, "onward": onward})


@require_POST
@login_not_required
def sign_out(request: HttpRequest) -> HttpResponse:
    """End the session; the next person finds the sign-in page."""
    logout(request)
    messages.info(request, gettext("You are signed out."))
    return redirect("accounts:sign_in")


@sensitive_post_parameters("old", "password", "again")
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@login_required
def password(request: HttpRequest) -> HttpResponse:
    """Change one's own password; other devices are signed out by it."""
    person = request.user
    assert isinstance(person, User)
    form = ChangePasswordForm(request.POST or None)
    if request.method == "POST" and form.attempt(
        lambda data: people.change_password(person, data["old"], data["password"])
    ):
        update_session_auth_hash(request, person)
        messages.info(request, gettext("Your password is changed. Your other devices are signed out."))
        return redirect(settings.LOGIN_REDIRECT_URL)
    return render(request, "accounts/password.html", {"form": form})


def _onward(request: HttpRequest) -> str:
    """The page asked for before signing in, when it is one of this site's."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    ours = url_has_allowed_host_and_scheme(asked, {request.get_host()}, require_https=request.is_secure())
    return asked if ours and asked.startswith("/") else ""
