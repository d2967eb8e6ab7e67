"""One's own account: password, where one is signed in, second factor."""

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext, ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain import caller
from weighin.accounts.domain.around import around
from weighin.accounts.forms import ChangePasswordForm, CodeForm
from weighin.accounts.models import Device, RecoveryCode, SecondFactor, SecurityEntry, User
from weighin.accounts.pages.new_factor import new_factor
from weighin.accounts.services import people, second_factors
from weighin.accounts.services.security_log import log_security
from weighin.accounts.services.sessions import end_sessions, move_session

form_page = require_http_methods(["GET", "HEAD", "POST"])


@sensitive_post_parameters("old", "password", "again")
@never_cache
@form_page
@login_required
def password(request: HttpRequest) -> HttpResponse:
    """Change one's own password; other devices are signed out by it."""
    person = _person(request)
    key = request.session.session_key or ""
    form = ChangePasswordForm(request.POST or None)
    if request.method == "POST" and form.attempt(
        lambda data: people.change_password(person, data["old"], data["password"], keep_session=key)
    ):
        update_session_auth_hash(request, person)
        move_session(key, request.session.session_key)
        messages.info(request, gettext("Your password is changed. Your other devices are signed out."))
        return redirect(settings.LOGIN_REDIRECT_URL)
    return render(request, "accounts/password.html", {"form": form})


@never_cache
@form_page
@login_required
def devices(request: HttpRequest) -> HttpResponse:
    """Where one is signed in; a post ends one session or all others."""
    person, here = _person(request), request.session.session_key or ""
    if request.method == "POST":
        which = request.POST.get("device", "")
        found = Device.objects.filter(user=person)
        chosen = found.filter(pk=which) if which.isdecimal() and len(which) < 19 else found.none()
        only = None if which == "others" else chosen.values_list("session_key", flat=True)
        ended = end_sessions(person, besides=here, only=only)
        if ended:
            log_security(SecurityEntry.Kind.SESSION_ENDED, person)
        messages.info(
            request,
            ngettext("%(n)s device is signed out.", "%(n)s devices are signed out.", ended) % {"n": ended}
            if ended
            else gettext("That device was signed out already."),
        )
        return redirect("accounts:devices")
    rows = list(Device.objects.filter(user=person))
    clock = around(person).clock
    context = {
        "devices": rows,
        "here": here,
        "others": sum(row.session_key != here for row in rows),
        "clock": clock,
    }
    with timezone.override(clock):
        return render(request, "accounts/devices.html", context)


@sensitive_post_parameters("code")
@never_cache
@form_page
@login_required
def second_factor(request: HttpRequest) -> HttpResponse:
    """Set the second factor up, or turn it off with a code."""
    person = _person(request)
    if not SecondFactor.objects.filter(user=person).exists():
        done, context = new_factor(request, person)
        if done:
            onward = reverse(settings.LOGIN_REDIRECT_URL)
            return render(request, "accounts/recovery_codes.html", {**context, "onward": onward})
        return render(request, "accounts/second_factor.html", context)
    form = CodeForm(request.POST or None)
    if request.method == "POST" and form.attempt(
        lambda data: second_factors.turn_off(person, data["code"], caller.address())
    ):
        messages.info(request, gettext("Your second factor is off: your password alone signs you in."))
        return redirect(settings.LOGIN_REDIRECT_URL)
    context = {
        "form": form,
        "on": True,
        "asked": around(person).second_factor_asked,
        "left": RecoveryCode.objects.filter(user=person, used_at__isnull=True).count(),
    }
    return render(request, "accounts/second_factor.html", context)


def _person(request: HttpRequest) -> User:
    assert isinstance(request.user, User)
    return request.user
