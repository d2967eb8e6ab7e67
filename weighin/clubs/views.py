"""Begin a site; clubs, their seasons, waters and members."""

from typing import Any

from django.contrib import messages
from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required, login_required
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.accounts.models import User
from weighin.accounts.queries import nobody_yet
from weighin.clubs.access import allow_in_club
from weighin.clubs.forms import (
    BeginForm,
    ClubForm,
    FirstPasswordForm,
    MemberForm,
    RemoveForm,
    RoleForm,
    SeasonForm,
    WaterForm,
)
from weighin.clubs.models import Club, Membership
from weighin.clubs.queries import directs_a_club, members_of
from weighin.clubs.services import clubs, membership
from weighin.clubs.tables import MembersTable
from weighin.ui.forms.service import ServiceForm

form_page = require_http_methods(["GET", "HEAD", "POST"])


@sensitive_post_parameters("password", "again")
@never_cache
@form_page
@login_not_required
def begin(request: HttpRequest) -> HttpResponse:
    """The first director and the club, while nobody is in the site yet."""
    if not nobody_yet():
        messages.info(request, gettext("This site has its first director already. Sign in here."))
        return redirect("accounts:sign_in")
    form = BeginForm(request.POST or None, initial={"word": request.GET.get("word", "")})
    if request.method == "POST" and form.attempt(
        lambda data: clubs.begin(
            data["username"], data["password"], data["name"], data.get("here") or data["club"], data["word"]
        )
    ):
        person: User = form.kept
        login(request, person, backend="django.contrib.auth.backends.ModelBackend")
        messages.info(
            request,
            gettext("You are director of %(club)s.") % {"club": Club.objects.get(memberships__user=person)},
        )
        return redirect("events:mine")
    return render(request, "clubs/begin.html", {"form": form})


@form_page
@login_required
def new(request: HttpRequest) -> HttpResponse:
    """A further club on this site; whoever directs one may start another."""
    if not directs_a_club(request.user):
        raise PermissionDenied(gettext("Only a director of a club starts another one. Ask the director of yours."))
    person = request.user
    assert isinstance(person, User)
    form = ClubForm(request.POST or None)
    if request.method == "POST" and form.attempt(lambda data: clubs.make_club(data["name"], person)):
        messages.info(request, gettext("%(kept)s is made; you are its director.") % {"kept": form.kept})
        return redirect("events:club", form.kept.slug)
    return render(request, "clubs/new.html", {"form": form})


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def edit(request: HttpRequest, club: Club) -> HttpResponse:
    """The club's name, its seasons and its waters."""
    form = ClubForm(request.POST or None, initial={"name": club.name})
    if request.method == "POST" and form.attempt(lambda data: clubs.rename_club(club, data["name"], _by(request))):
        messages.info(request, gettext("The club is written as %(name)s.") % {"name": club.name})
        return redirect("clubs:edit", club.slug)
    club.refresh_from_db()
    context = {"club": club, "form": form, "seasons": club.seasons.all(), "waters": club.waters.all()}
    return render(request, "clubs/edit.html", context)


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def seasons_new(request: HttpRequest, club: Club) -> HttpResponse:
    """A season of the club."""
    form = SeasonForm(request.POST or None)
    if request.method == "POST" and form.attempt(lambda data: clubs.make_season(club, data["name"], _by(request))):
        messages.info(request, gettext("Season %(kept)s is made.") % {"kept": form.kept})
        return redirect("events:club", club.slug)
    return render(request, "clubs/season.html", {"club": club, "form": form})


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def waters_new(request: HttpRequest, club: Club) -> HttpResponse:
    """A water of the club."""
    form = WaterForm(request.POST or None)
    if request.method == "POST" and form.attempt(
        lambda data: clubs.make_water(club, data["name"], data["elevation_ft"], _by(request))
    ):
        messages.info(request, gettext("%(kept)s is written down.") % {"kept": form.kept})
        return redirect("events:club", club.slug)
    return render(request, "clubs/water.html", {"club": club, "form": form})


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def waters_edit(request: HttpRequest, club: Club, water_pk: int) -> HttpResponse:
    """A water's name and elevation."""
    found = club.waters.filter(pk=water_pk).first()
    if found is None:
        raise Http404(gettext("%(club)s has no such water.") % {"club": club})
    name = found.name
    form = WaterForm(request.POST or None, initial={"name": name, "elevation_ft": found.elevation_ft})
    if request.method == "POST" and form.attempt(
        lambda data: clubs.change_water(found, data["name"], data["elevation_ft"], _by(request))
    ):
        messages.info(request, gettext("%(found)s is changed.") % {"found": found})
        return redirect("clubs:edit", club.slug)
    return render(request, "clubs/water.html", {"club": club, "form": form, "name": name})


@allow_in_club(Can.MANAGE_CLUB)
@require_http_methods(["GET", "HEAD"])
def members(request: HttpRequest, club: Club) -> HttpResponse:
    """Who is in the club and as what."""
    found = list(members_of(club))
    table = MembersTable(members_of(club))
    RequestConfig(request, paginate={"per_page": 50}).configure(table)
    return render(request, "clubs/members.html", {"club": club, "table": table, "members": found})


@sensitive_post_parameters("password")
@never_cache
@allow_in_club(Can.MANAGE_CLUB)
@form_page
def members_new(request: HttpRequest, club: Club) -> HttpResponse:
    """Bring a person into the club."""
    form = MemberForm(request.POST or None)
    if request.method == "POST" and form.attempt(
        lambda data: membership.add_member(
            club, data["username"], data["password"], data["name"], data["role"], _by(request)
        )
    ):
        messages.info(
            request,
            gettext("%(user)s is %(role)s of %(club)s.")
            % {"user": form.kept.user, "role": form.kept.get_role_display().lower(), "club": club},
        )
        return redirect("clubs:members", club.slug)
    return render(request, "clubs/member_new.html", {"club": club, "form": form})


@sensitive_post_parameters("password")
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
        "password": FirstPasswordForm(posted["password"]),
        "remove": RemoveForm(posted["remove"]),
    }
    said = _act_on_member(found, act, forms, _by(request)) if act in forms else None
    if said:
        messages.info(request, said)
        return redirect("events:mine") if found.user_id == request.user.pk else redirect("clubs:members", club.slug)
    return render(request, "clubs/member.html", {"club": club, "member": found, "forms": forms})


def _act_on_member(found: Membership, act: str, forms: dict[str, Any], by: str) -> str | None:
    """Do what was asked; the sentence that says so, or None when the form has faults."""
    form = forms[act]
    if act == "role" and form.attempt(lambda data: membership.change_role(found, data["role"], by)):
        return gettext("%(user)s is %(role)s.") % {"user": found.user, "role": found.get_role_display().lower()}
    if act == "password" and form.attempt(lambda data: membership.give_password(found, data["password"], by)):
        return gettext("%(user)s has a new first password.") % {"user": found.user}
    if act == "remove" and form.attempt(lambda data: membership.remove_member(found, by)):
        return gettext("%(user)s is no longer a member. What they wrote stays under their name.") % {"user": found.user}
    return None


def _by(request: HttpRequest) -> str:
    return request.user.get_username()
