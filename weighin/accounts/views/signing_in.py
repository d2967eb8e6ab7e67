"""Sign in, step by step where more than a password is asked for, and out."""

from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.contrib.auth import logout
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext_lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from weighin.accounts.domain import caller
from weighin.accounts.forms import CodeForm, NewPasswordForm, SignInForm
from weighin.accounts.models import SecurityEntry, User
from weighin.accounts.pages.new_factor import new_factor
from weighin.accounts.queries.people import nobody_yet
from weighin.accounts.services import people, second_factors
from weighin.accounts.services.known_browsers import remember
from weighin.accounts.services.security_log import log_security
from weighin.accounts.services.sessions import begin_session, end_sessions
from weighin.accounts.services.signing_in import Step, begin_asking, end_asking, next_step, step_done, who_asks
from weighin.accounts.services.sweeping import sweep

SAID = {
    "out": gettext_lazy("You are signed out."),
    "late": gettext_lazy("That took more than ten minutes. Sign in again."),
    "begun": gettext_lazy("This site has its first director already. Sign in here."),
}
form_page = require_http_methods(["GET", "HEAD", "POST"])


@sensitive_post_parameters("password")
@never_cache
@form_page
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
        if next_step({}, form.person) is None:
            return _signed_in(request, form.person, onward)
        begin_asking(request.session, form.person, onward)
        return redirect("accounts:sign_in_step")
    context = {"form": form, "onward": onward, "said": SAID.get(request.GET.get("said", ""))}
    return render(request, "accounts/sign_in.html", context)


@sensitive_post_parameters("code", "password", "again")
@never_cache
@form_page
@login_not_required
def sign_in_step(request: HttpRequest) -> HttpResponse:
    """What is asked for after the password: a code, a password of one's own, a second factor."""
    person = who_asks(request.session)
    if person is None:
        return redirect(f"{reverse('accounts:sign_in')}?said=late")
    step = next_step(request.session, person)
    if step is None:
        return _signed_in(request, person, end_asking(request.session))
    done, context = STEPS[step](request, person)
    if not done:
        return render(request, f"accounts/step_{step.value}.html", {"person": person, **context})
    step_done(request.session, person, step)
    if step is Step.FACTOR:
        onward = end_asking(request.session) or reverse(settings.LOGIN_REDIRECT_URL)
        begin_session(request, person)
        return render(request, "accounts/recovery_codes.html", {**context, "onward": onward})
    return redirect("accounts:sign_in_step")


def _code(request: HttpRequest, person: User) -> tuple[bool, dict[str, Any]]:
    form = CodeForm(request.POST or None)
    done = request.method == "POST" and form.attempt(
        lambda data: second_factors.take_code(person, data["code"], caller.address())
    )
    return done, {"form": form}


def _password(request: HttpRequest, person: User) -> tuple[bool, dict[str, Any]]:
    form = NewPasswordForm(request.POST or None)
    done = request.method == "POST" and form.attempt(
        lambda data: people.replace_first_password(person, data["password"])
    )
    return done, {"form": form}


STEPS: dict[Step, Callable[[HttpRequest, User], tuple[bool, dict[str, Any]]]] = {
    Step.CODE: _code,
    Step.PASSWORD: _password,
    Step.FACTOR: new_factor,
}


@require_POST
@login_not_required
def sign_out(request: HttpRequest) -> HttpResponse:
    """End the session; the next person finds the sign-in page. What a page has not sent yet stays on the device."""
    if isinstance(request.user, User):
        log_security(SecurityEntry.Kind.SIGN_OUT, request.user)
        end_sessions(request.user, only=[request.session.session_key or ""])
    logout(request)
    # Said by the address: a message would need a session again
    return redirect(f"{reverse('accounts:sign_in')}?said=out")


def _signed_in(request: HttpRequest, person: User, onward: str) -> HttpResponse:
    begin_session(request, person)
    sweep()
    answer = redirect(onward or settings.LOGIN_REDIRECT_URL)
    remember(answer, person.username)
    return answer


def _onward(request: HttpRequest) -> str:
    """The page asked for before signing in, when it is one of this site's."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    ours = url_has_allowed_host_and_scheme(asked, {request.get_host()}, require_https=request.is_secure())
    return asked if ours and asked.startswith("/") else ""
