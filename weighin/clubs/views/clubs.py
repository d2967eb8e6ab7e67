"""Begin a site; clubs, their seasons and waters."""

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required, login_required
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.accounts.models import User
from weighin.accounts.queries.people import nobody_yet
from weighin.accounts.services.sessions import begin_session
from weighin.clubs.access import allow_in_club
from weighin.clubs.forms import BeginForm, ClubForm, FiguresForm, SeasonForm, WaterForm
from weighin.clubs.models import Club
from weighin.clubs.queries import directs_a_club
from weighin.clubs.services import clubs
from weighin.environment import first_word

form_page = require_http_methods(["GET", "HEAD", "POST"])


@sensitive_post_parameters("password", "again")
@never_cache
@form_page
@login_not_required
def begin(request: HttpRequest) -> HttpResponse:
    """The first director and the club, while nobody is in the site yet."""
    if not nobody_yet():
        # Said by the address: a message would make a session for everybody who passes by
        return redirect(f"{reverse('accounts:sign_in')}?said=begun")
    # However the site was started, the word lies in its file by now
    first_word(settings.DATA)
    form = BeginForm(request.POST or None, initial={"word": request.GET.get("word", "")})
    if request.method == "POST" and form.attempt(
        lambda data: clubs.begin(
            data["username"], data["password"], data["name"], data.get("here") or data["club"], data["word"]
        )
    ):
        person: User = form.kept
        begin_session(request, person)
        messages.info(
            request,
            gettext("You are director of %(club)s.") % {"club": Club.objects.get(memberships__user=person)},
        )
        return redirect("events:mine")
    return render(request, "clubs/begin.html", {"form": form})


@form_page
@login_required
def new(request: HttpRequest) -> HttpResponse:
    """Another club on this site; whoever directs one may start another."""
    if not directs_a_club(request.user):
        raise PermissionDenied(gettext("Only a director of a club adds another one. Ask the director of yours."))
    person = request.user
    assert isinstance(person, User)
    form = ClubForm(request.POST or None)
    if request.method == "POST" and form.attempt(lambda data: clubs.make_club(data["name"], person)):
        messages.info(request, gettext("%(kept)s is added; you are its director.") % {"kept": form.kept})
        return redirect("events:club", form.kept.slug)
    return render(request, "clubs/new.html", {"form": form})


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def edit(request: HttpRequest, club: Club) -> HttpResponse:
    """The club's name, its seasons and its waters."""
    act = request.POST.get("act", "")
    of_figures = act == "figures"
    form = ClubForm(None if act else request.POST or None, initial={"name": club.name})
    written = {name: getattr(club, name) for name in ("currency", "hours", "degrees", "language")}
    figures = FiguresForm(request.POST if of_figures else None, initial=written)
    if of_figures and figures.attempt(lambda data: clubs.set_figures(club, **data, by=_by(request))):
        messages.info(request, gettext("Figures and language are saved."))
        return redirect("clubs:edit", club.slug)
    if (
        request.method == "POST"
        and not act
        and form.attempt(lambda data: clubs.rename_club(club, data["name"], _by(request)))
    ):
        messages.info(request, gettext("The name is saved: %(name)s.") % {"name": club.name})
        return redirect("clubs:edit", club.slug)
    if act in ("open", "close"):
        is_open = act == "open"
        clubs.open_club(club, is_open, _by(request))
        messages.info(
            request,
            gettext("Everyone can see the club’s page and calendar now.")
            if is_open
            else gettext("The club’s page and calendar are for members only now."),
        )
        return redirect("clubs:edit", club.slug)
    club.refresh_from_db()
    context = {
        "club": club,
        "form": form,
        "figures": figures,
        "seasons": club.seasons.all(),
        "waters": club.waters.all(),
    }
    return render(request, "clubs/edit.html", context)


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def seasons_new(request: HttpRequest, club: Club) -> HttpResponse:
    """A season of the club; the first one with its first water, and on to the first event."""
    first = {} if club.seasons.exists() else {"name": str(timezone.now().year)}
    form = SeasonForm(request.POST or None, club=club, initial=first)
    if request.method == "POST" and form.attempt(
        lambda data: clubs.make_season(club, data["name"], _by(request), data.get("water", ""))
    ):
        messages.info(request, gettext("Season %(kept)s is added.") % {"kept": form.kept})
        return redirect("events:new" if form.cleaned_data.get("water") else "events:club", club.slug)
    return render(request, "clubs/season.html", {"club": club, "form": form})


@allow_in_club(Can.MANAGE_CLUB)
@form_page
def waters_new(request: HttpRequest, club: Club) -> HttpResponse:
    """A water of the club."""
    form = WaterForm(request.POST or None)
    if request.method == "POST" and form.attempt(
        lambda data: clubs.make_water(club, data["name"], data["elevation_ft"], _by(request))
    ):
        messages.info(request, gettext("%(kept)s is added.") % {"kept": form.kept})
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
        messages.info(request, gettext("%(found)s is saved.") % {"found": found})
        return redirect("clubs:edit", club.slug)
    return render(request, "clubs/water.html", {"club": club, "form": form, "name": name})


def _by(request: HttpRequest) -> str:
    return request.user.get_username()
