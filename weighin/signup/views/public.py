"""Sign-up without a log-in: the event's page for it, and each team's own page by its link."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.cache import patch_cache_control
from django.utils.translation import gettext
from django.views.decorators.csrf import csrf_protect
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in
from weighin.clubs.domain.clock import shown_by
from weighin.events.access import find
from weighin.events.models import Event
from weighin.letters.queries import mail_is_set
from weighin.rules.faults import Faults
from weighin.signup.domain.opening import Door
from weighin.signup.forms import SignUpForm
from weighin.signup.models import SignUp
from weighin.signup.pages.team import team_page
from weighin.signup.queries.opening import opening_of, terms_of
from weighin.signup.queries.places import names_to_show, places_of
from weighin.signup.queries.sign_ups import by_token
from weighin.signup.services import sign_ups as services
from weighin.signup.services.brakes import count_kept, new_stamp, read_stamp, too_often, trapped
from weighin.signup.services.telling import link_of
from weighin.ui.codes import code, opens_only_here
from weighin.ui.forms.service import ServiceForm

TOO_MANY_REQUESTS = 429


@csrf_protect
@require_http_methods(["GET", "HEAD", "POST"])
def sign_up(request: HttpRequest, event_slug: str) -> HttpResponse:
    """Sign a team up. Nothing else of the event shows, published or not; 404 where sign-up never was open."""
    event = find(event_slug)
    terms = terms_of(event) if event and event.rehearsal_of_id is None else None
    opening = opening_of(event, terms) if event and terms else None
    if event is None or terms is None or opening is None or not _is_shown(event, terms.was_open, opening.door):
        raise Http404(gettext("There is no sign-up at this address."))
    with shown_by(event.club, event.time_zone):
        sent = request.method == "POST"
        stamp = str(request.POST.get("stamp", "")) if sent else new_stamp(event.pk)
        form = SignUpForm(request.POST if sent else None, event=event, terms=terms, stamp=stamp)
        if sent and opening.door is Door.OPEN and _attempt(request, event, form):
            return redirect(link_of(form.kept))
        places = places_of(event)
        context = {
            "event": event,
            "terms": terms,
            "opening": opening,
            "open": opening.door is Door.OPEN,
            "form": form,
            "places": places,
            "taken": len(places.inside),
            "teams": names_to_show(event, places) if terms.show_teams else [],
            "fee": event.entry_fee,
            "sign": event.club.currency,
            "mail": mail_is_set(),
        }
        return _private(render(request, "signup/sign_up.html", context, status=form.status))


@require_safe
def team(request: HttpRequest, token: str) -> HttpResponse:
    """A team's own page; no link leads there, and it leads nowhere else."""
    found = _found(token)
    with shown_by(found.event.club, found.event.time_zone):
        address = request.build_absolute_uri(link_of(found))
        context = {
            "event": found.event,
            "page": team_page(found),
            "sign": found.event.club.currency,
            "token": token,
            "note": terms_of(found.event).note,
            "address": address,
            "code": "" if opens_only_here(request.get_host()) else code(address, gettext("The link of this page")),
        }
        answer = render(request, "signup/team.html", context)
    answer["Referrer-Policy"] = "no-referrer"
    return _private(answer)


@csrf_protect
@require_http_methods(["GET", "HEAD", "POST"])
def withdraw(request: HttpRequest, token: str) -> HttpResponse:
    """Ask once more, and withdraw the team."""
    found = _found(token)
    form = ServiceForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.attempt(lambda data: services.withdraw(found)):
        return redirect("signup:team", token)
    with shown_by(found.event.club, found.event.time_zone):
        context = {
            "event": found.event,
            "page": team_page(found),
            "sign": found.event.club.currency,
            "token": token,
            "form": form,
        }
        answer = render(request, "signup/withdraw.html", context)
    # Without any referrer a browser names no origin with the form either, and the form would be refused; this names no path
    answer["Referrer-Policy"] = "strict-origin"
    return _private(answer)


def _is_shown(event: Event, was_open: bool, door: Door) -> bool:
    return door in (Door.OPEN, Door.OVER) or (door is Door.SOON and (was_open or event.is_public))


def _attempt(request: HttpRequest, event: Event, form: SignUpForm) -> bool:
    """Try to keep what was sent; every fault stands in the form. A page that cannot send again gets a new stamp."""
    address = str(request.META.get("REMOTE_ADDR", ""))
    of_the_desk = can_in(request.user, event.club, Can.MANAGE_TEAMS)
    id, wrong = read_stamp(form.stamp_to_send, event.pk)
    wrong += trapped(str(request.POST.get("website", "")))
    if not of_the_desk and (often := too_often(address)):
        wrong += often
        form.status = TOO_MANY_REQUESTS
    if id is None:
        form.stamp_to_send = new_stamp(event.pk)

    def keep(data: dict[str, Any]) -> SignUp:
        if wrong or id is None:
            raise Faults(wrong)
        site = f"{request.scheme}://{request.get_host()}"
        return services.sign_up(event, form.texts(data), id, site)

    if not form.attempt(keep):
        return False
    if not of_the_desk:
        count_kept(address)
    return True


def _found(token: str) -> SignUp:
    found = by_token(token)
    if found is None:
        raise Http404(gettext("There is no sign-up behind this link: check it, or ask the club."))
    return found


def _private(answer: HttpResponse) -> HttpResponse:
    """Keep it out of every store and index."""
    patch_cache_control(answer, private=True, no_store=True)
    answer["X-Robots-Tag"] = "noindex, nofollow"
    return answer
