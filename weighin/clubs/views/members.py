"""The members of a club: invited, brought in, given another role or a first password, taken out; the security log."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_variables
from django.views.decorators.http import require_http_methods, require_POST
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.accounts.models import User
from weighin.clubs.access import allow_in_club
from weighin.clubs.forms import LinkForm, MemberForm, RemoveForm, RoleForm, SecondFactorForm
from weighin.clubs.models import Club, Membership
from weighin.clubs.queries import members_of, open_invitations, security_entries
from weighin.clubs.services import invitations, membership
from weighin.clubs.tables import MembersTable, SecurityTable
from weighin.rules.faults import Faults
from weighin.ui.codes import code, opens_only_here
from weighin.ui.forms.service import ServiceForm, sentence

form_page = require_http_methods(["GET", "HEAD", "POST"])


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def members(request: HttpRequest, club: Club) -> HttpResponse:
    """Who is in the club and as what, who is invited; a post sets whether directors must have a second factor."""
    form = SecondFactorForm(request.POST or None, initial={"asked": club.asks_second_factor})
    if request.method == "POST":
        # An empty box is a whole form too
        form = SecondFactorForm(request.POST)
        if form.attempt(lambda data: membership.ask_second_factor(club, data["asked"], _by(request).username)):
            messages.info(
                request,
                gettext(
                    "Directors are asked for a second factor from their next sign-in on. Set yours up now: “Your clubs”, then “Second factor”."
                )
                if form.cleaned_data["asked"]
                else gettext("A second factor is optional now."),
            )
            return redirect("clubs:members", club.slug)
    found = list(members_of(club))
    table = MembersTable(members_of(club))
    RequestConfig(request, paginate={"per_page": 50}).configure(table)
    context = {
        "club": club,
        "table": table,
        "members": found,
        "invitations": list(open_invitations(club)),
        "form": form,
    }
    return render(request, "clubs/members.html", context)


@sensitive_variables("token", "password", "context", "address", "kept")
@never_cache
@allow_in_club(Can.MANAGE_CLUB)
@form_page
def members_new(request: HttpRequest, club: Club) -> HttpResponse:
    """Invite a person by a link, or bring one in by a user name; what is secret is shown this once."""
    act = request.POST.get("act", "member")
    link = LinkForm(request.POST if request.POST and act == "link" else None, auto_id="link_%s")
    form = MemberForm(request.POST if request.POST and act == "member" else None)
    by = _by(request)
    if request.method == "POST" and act == "link":
        if link.attempt(lambda data: invitations.invite_by_link(club, data["name"], data["role"], by)):
            invitation, token = link.kept
            address = request.build_absolute_uri(reverse("clubs:join", args=(token,)))
            drawn = code(address, gettext("Code of the address of the invitation"))
            only_here = opens_only_here(request.get_host())
            context = {
                "club": club,
                "invitation": invitation,
                "address": address,
                "drawn": drawn,
                "only_here": only_here,
            }
            return render(request, "clubs/shown_once.html", context)
    elif request.method == "POST" and form.attempt(
        lambda data: invitations.bring_in(club, data["username"], data["name"], data["role"], by)
    ):
        kept, password = form.kept
        if isinstance(kept, Membership):
            return render(request, "clubs/shown_once.html", {"club": club, "member": kept, "password": password})
        said = gettext("%(user)s is asked, and a member of %(club)s after accepting on the page of their clubs.")
        messages.info(request, said % {"user": kept.user, "club": club})
        return redirect("clubs:members", club.slug)
    return render(request, "clubs/member_new.html", {"club": club, "form": form, "link": link})


@require_POST
@allow_in_club(Can.MANAGE_CLUB)
def invitation_withdraw(request: HttpRequest, club: Club, invitation_pk: int) -> HttpResponse:
    """Take an invitation back."""
    found = open_invitations(club).filter(pk=invitation_pk).first()
    if found is None:
        messages.warning(request, gettext("That invitation was used or withdrawn already."))
        return redirect("clubs:members", club.slug)
    try:
        invitations.withdraw(found, _by(request))
        messages.info(request, gettext("The invitation of %(name)s is withdrawn.") % {"name": found.name})
    except Faults as faults:
        messages.warning(request, sentence(faults.faults[0].message))
    return redirect("clubs:members", club.slug)


@sensitive_variables("password", "said", "context")
@never_cache
@allow_in_club(Can.MANAGE_CLUB)
@form_page
def member(request: HttpRequest, club: Club, member_pk: int) -> HttpResponse:
    """One member: change the role, give a new first password, take out of the club."""
    found = members_of(club).filter(pk=member_pk).first()
    if found is None:
        raise Http404(gettext("%(club)s has no such member.") % {"club": club})
    act = request.POST.get("act", "")
    posted = {name: request.POST if act == name else None for name in ("role", "password", "remove")}
    forms: dict[str, ServiceForm] = {
        "role": RoleForm(posted["role"], membership=found),
        "password": RemoveForm(posted["password"]),
        "remove": RemoveForm(posted["remove"]),
    }
    by = _by(request).username
    if act == "password" and forms[act].attempt(lambda data: membership.give_password(found, by)):
        return render(request, "clubs/shown_once.html", {"club": club, "member": found, "password": forms[act].kept})
    said = _act_on_member(found, act, forms, by)
    if said:
        messages.info(request, said)
        return redirect("events:mine") if found.user_id == request.user.pk else redirect("clubs:members", club.slug)
    return render(request, "clubs/member.html", {"club": club, "member": found, "forms": forms})


@allow_in_club(Can.MANAGE_CLUB)
@require_http_methods(["GET", "HEAD"])
def security(request: HttpRequest, club: Club) -> HttpResponse:
    """Who signed in, or was refused, from where."""
    people = {one.user_id for one in members_of(club)}
    table = SecurityTable(security_entries(club), people=people)
    RequestConfig(request, paginate={"per_page": 100}).configure(table)
    return render(request, "clubs/security.html", {"club": club, "table": table})


def _act_on_member(found: Membership, act: str, forms: dict[str, Any], by: str) -> str | None:
    """Do what was asked; the sentence that says so, or None when the form has faults."""
    if act == "role" and forms[act].attempt(lambda data: membership.change_role(found, data["role"], by)):
        return gettext("%(user)s is %(role)s.") % {"user": found.user, "role": found.get_role_display().lower()}
    if act == "remove" and forms[act].attempt(lambda data: membership.remove_member(found, by)):
        return gettext("%(user)s is no longer a member. What they wrote stays under their name.") % {"user": found.user}
    return None


def _by(request: HttpRequest) -> User:
    assert isinstance(request.user, User)
    return request.user
