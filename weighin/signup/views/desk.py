"""Sign-ups at the desk: the list, the terms, one of them with its decision, and a slip with its link."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.letters.queries import mail_is_set
from weighin.signup.forms import RefusalForm, TermsForm
from weighin.signup.models import SignUp
from weighin.signup.pages.desk import doubts_said, letters_said, rows_of, why_shut
from weighin.signup.pages.team import team_page
from weighin.signup.queries.opening import opening_of, terms_of
from weighin.signup.queries.places import places_of
from weighin.signup.queries.sign_ups import anglers_of, doubts_of, sign_ups_of
from weighin.signup.services.sign_ups import approve, new_link, refuse
from weighin.signup.services.telling import link_of
from weighin.signup.services.terms import set_terms
from weighin.ui.codes import code, opens_only_here
from weighin.ui.forms.service import ServiceForm

form_page = require_http_methods(["GET", "HEAD", "POST"])


@allow(Can.MANAGE_TEAMS)
@require_safe
def sign_ups(request: HttpRequest, event: Event) -> HttpResponse:
    """Who signed up, who is in and who waits."""
    terms = terms_of(event)
    places = places_of(event)
    rows = rows_of(event, places)
    opening = opening_of(event, terms)
    context = {
        "event": event,
        "terms": terms,
        "opening": opening,
        "why_shut": why_shut(event, terms, opening),
        "rows": rows,
        "asked": sum(row.sign_up.state == SignUp.State.ASKED for row in rows),
        "places": places,
        "mail": mail_is_set(),
    }
    return render(request, "signup/sign_ups.html", context)


@allow(Can.MANAGE_EVENT)
@form_page
def terms(request: HttpRequest, event: Event) -> HttpResponse:
    """Open the sign-up, close it, and say on which terms."""
    form = TermsForm(request.POST or None, terms=terms_of(event), event=event)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: set_terms(event, data, by)):
        messages.info(request, gettext("The terms of the sign-up are saved."))
        return redirect("signup:sign_ups", event.slug)
    return render(request, "signup/terms.html", {"event": event, "form": form})


@allow(Can.MANAGE_TEAMS)
@form_page
def one(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """One sign-up: approve it, or refuse it with a reason."""
    found = _found(event, number)
    act, by = request.POST.get("act", ""), request.user.get_username()
    approval = ServiceForm(request.POST if act == "approve" else None)
    refusal = RefusalForm(request.POST if act == "refuse" else None)
    said = {"number": number}
    if act == "approve" and approval.attempt(lambda data: approve(found, by)):
        messages.info(request, gettext("Sign-up %(number)s is approved: the team is entered.") % said)
        return redirect("signup:sign_ups", event.slug)
    if act == "refuse" and refusal.attempt(lambda data: refuse(found, data["reason"], by)):
        messages.info(request, gettext("Sign-up %(number)s is refused.") % said)
        return redirect("signup:sign_ups", event.slug)
    anglers = dict(anglers_of(found))
    context = {
        "event": event,
        "found": found,
        "team": found.entry.name if found.entry else found.name,
        "asked": found.state == SignUp.State.ASKED,
        "anglers": [
            (name, getattr(found, f"minor_{line}"), getattr(found, f"guardian_{line}"))
            for line, name in anglers.items()
        ],
        "doubts": doubts_said(doubts_of(found)) if found.state == SignUp.State.ASKED else [],
        "letters": letters_said(found),
        "approval": approval,
        "refusal": refusal,
    }
    return render(request, "signup/one.html", context)


@allow(Can.MANAGE_TEAMS)
@form_page
def slip(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """A slip with the team's link, to print; or another link, where the one before came into wrong hands."""
    found = _found(event, number)
    if request.method == "POST":
        new_link(found, request.user.get_username())
        messages.info(request, gettext("The team has a new link. The one before opens nothing anymore."))
        return redirect("signup:slip", event.slug, number)
    address = request.build_absolute_uri(link_of(found))
    context = {
        "event": event,
        "page": team_page(found),
        "sign": event.club.currency,
        "address": address,
        "code": "" if opens_only_here(request.get_host()) else code(address, gettext("The team’s link")),
    }
    return render(request, "signup/slip.html", context)


def _found(event: Event, number: int) -> SignUp:
    found = sign_ups_of(event).select_related("entry", "event__season__club").filter(number=number).first()
    if found is None:
        raise Http404(gettext("There is no such sign-up for this event."))
    return found
