"""Say yes to an invitation: by its link, or on the page of one's clubs."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required, login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from weighin.accounts.models import User
from weighin.accounts.services.sessions import begin_session
from weighin.clubs.forms import JoinForm, RemoveForm
from weighin.clubs.queries import invitation_of
from weighin.clubs.services import invitations
from weighin.rules.faults import Faults
from weighin.ui.forms.service import sentence


@sensitive_post_parameters("password", "again")
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@login_not_required
def join(request: HttpRequest, token: str) -> HttpResponse:
    """The page of a link: who has signed in says yes, who is new chooses a name and a password first."""
    invitation = invitation_of(token)
    if invitation is None:
        return render(request, "clubs/invitation_over.html", status=404)
    person = request.user if isinstance(request.user, User) else None
    posted = request.POST if request.method == "POST" else None
    form = RemoveForm(posted) if person else JoinForm(posted)
    if request.method == "POST" and form.attempt(
        lambda data: (
            invitations.accept_as(token, person)
            if person
            else invitations.accept_as_new(token, data["username"], data["password"], data["name"])
        )
    ):
        if person is None:
            begin_session(request, form.kept.user)
        messages.info(request, gettext("You are a member of %(club)s now.") % {"club": form.kept.club})
        return redirect("events:mine")
    return render(request, "clubs/join.html", {"invitation": invitation, "form": form, "token": token})


@require_POST
@login_required
def answer(request: HttpRequest, invitation_pk: int) -> HttpResponse:
    """Say yes or no to an invitation that stands on the page of one's clubs."""
    assert isinstance(request.user, User)
    yes = request.POST.get("answer") == "yes"
    try:
        invitation = invitations.answer(invitation_pk, request.user, yes)
    except Faults as faults:
        messages.warning(request, sentence(faults.faults[0].message))
    else:
        said = gettext("You are a member of %(club)s now.") if yes else gettext("You declined to join %(club)s.")
        messages.info(request, said % {"club": invitation.club})
    return redirect("events:mine")
