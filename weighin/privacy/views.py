"""Notices, and what a club and a person do about the names that are kept of them."""

import json
from typing import Any

from django.contrib import messages
from django.contrib.auth import logout
from django.contrib.auth.decorators import login_not_required, login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext, ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.accounts.models import User
from weighin.clubs.access import allow_in_club, role_in
from weighin.clubs.models import Club
from weighin.clubs.queries import members_of
from weighin.events.queries.events import public_events
from weighin.privacy.forms import EraseAccountForm, EraseOldForm, KeepForm, NameForm, NoticeForm
from weighin.privacy.pages.notice import kept_said, notice_of, text_to_begin_with
from weighin.privacy.queries.decided import named_seasons, old_seasons, privacy_of
from weighin.privacy.queries.mentions import mentions
from weighin.privacy.queries.own import kept_about, own_data
from weighin.privacy.services.deciding import keep_names, write_notice
from weighin.privacy.services.erasing import erase_account, erase_name, erase_old_names

form_page = require_http_methods(["GET", "HEAD", "POST"])
MOST_SHOWN = 100


@require_safe
@login_not_required
def notice(request: HttpRequest) -> HttpResponse:
    """What the site keeps about people, for everybody."""
    return render(request, "privacy/notice.html", {"notice": notice_of(None)})


@require_safe
@login_not_required
def club_notice(request: HttpRequest, club_slug: str) -> HttpResponse:
    """The same as a club says it; strangers learn of a club only by what it publishes."""
    found = Club.objects.filter(slug=club_slug).first()
    known = found is not None and (
        public_events().filter(season__club=found).exists() or role_in(request.user, found) is not None
    )
    if found is None or not known:
        raise Http404(gettext("There is no such page, or you are not a member of its club."))
    return render(request, "privacy/notice.html", {"notice": notice_of(found), "of": found})


@never_cache
@form_page
@login_required
def mine(request: HttpRequest) -> HttpResponse:
    """What is kept about whoever is signed in, and the erasing of their account."""
    person = request.user
    assert isinstance(person, User)
    form = EraseAccountForm(request.POST or None)
    if request.method == "POST" and form.attempt(lambda data: erase_account(person, data["typed"], person.username)):
        logout(request)
        messages.info(request, gettext("Your account is erased."))
        return redirect("accounts:sign_in")
    told = own_data(person)
    return render(request, "privacy/mine.html", {"form": form, "told": told})


@never_cache
@require_safe
@login_required
def mine_file(request: HttpRequest) -> HttpResponse:
    """The same as a file."""
    assert isinstance(request.user, User)
    return _file(own_data(request.user), "my-data.json")


@form_page
@allow_in_club(Can.MANAGE_CLUB)
def club(request: HttpRequest, club: Club) -> HttpResponse:
    """How long names are kept, whose are older than that, and the ways to one angler, the notice and the members."""
    decided, seasons, by = privacy_of(club), named_seasons(club), _by(request)
    act = request.POST.get("act", "")
    keep = KeepForm(request.POST if act == "keep" else None, initial={"seasons": decided.keep_seasons})
    erase = EraseOldForm(request.POST if act == "erase" else None)
    if act == "keep" and keep.attempt(lambda data: keep_names(club, data["seasons"], by)):
        messages.info(request, gettext("Saved. Nothing is erased until you erase it below."))
        return redirect("privacy:club", club.slug)
    if act == "erase" and erase.attempt(lambda data: erase_old_names(club, by)):
        names = sum(one.kept for one in erase.kept)
        said = ngettext("%(n)s name or note is erased.", "%(n)s names and notes are erased.", names)
        messages.info(request, said % {"n": names})
        return redirect("privacy:club", club.slug)
    context = {
        "club": club,
        "decided": decided,
        "kept": kept_said(decided.decided, decided.keep_seasons),
        "seasons": seasons,
        "old": old_seasons(seasons, decided.keep_seasons),
        "names": sum(one.names for one in seasons),
        "forms": {"keep": keep, "erase": erase},
        "members": members_of(club),
    }
    return render(request, "privacy/club.html", context)


@form_page
@allow_in_club(Can.MANAGE_CLUB)
def write(request: HttpRequest, club: Club) -> HttpResponse:
    """The club's own notice."""
    begun = privacy_of(club).notice or text_to_begin_with()
    form = NoticeForm(request.POST or None, initial={"notice": begun})
    by = _by(request)
    if request.method == "POST" and form.attempt(lambda data: write_notice(club, _unless_the_same(data["notice"]), by)):
        messages.info(request, gettext("The notice is saved."))
        return redirect("privacy:club_notice", club.slug)
    return render(request, "privacy/write.html", {"club": club, "form": form})


@never_cache
@form_page
@allow_in_club(Can.MANAGE_CLUB)
def angler(request: HttpRequest, club: Club) -> HttpResponse:
    """What is kept under an angler's name: shown, taken out as a file, or erased. The name is never in an address."""
    act = request.POST.get("act", "")
    form = NameForm(request.POST or None)
    context: dict[str, Any] = {"club": club, "form": form}
    if request.method != "POST" or not form.is_valid():
        return render(request, "privacy/angler.html", context)
    name = form.cleaned_data["name"]
    if act == "file":
        return _file(kept_about(club, name), "angler.json")
    if act == "erase" and form.attempt(lambda data: erase_name(club, data["name"], _by(request))):
        said = ngettext("The name is erased from %(n)s team.", "The name is erased from %(n)s teams.", form.kept)
        messages.info(request, said % {"n": form.kept})
        return redirect("privacy:angler", club.slug)
    found = mentions(club, name)
    context |= {
        "name": " ".join(name.split()),
        "found": found,
        "goes": [one for one in found if one.erased],
        "stays": [one for one in found if not one.erased and not one.chained][:MOST_SHOWN],
        "chained": [one for one in found if one.chained][:MOST_SHOWN],
    }
    return render(request, "privacy/angler.html", context)


@never_cache
@form_page
@allow_in_club(Can.MANAGE_CLUB)
def member(request: HttpRequest, club: Club, member_pk: int) -> HttpResponse:
    """The erasing of an official's account."""
    found = members_of(club).filter(pk=member_pk).first()
    if found is None:
        raise Http404(gettext("There is no such member: perhaps the person left the club meanwhile."))
    form = EraseAccountForm(request.POST or None)
    if request.method == "POST" and form.attempt(
        lambda data: erase_account(found.user, data["typed"], _by(request), club)
    ):
        messages.info(request, gettext("The account is erased: %(called)s.") % {"called": form.kept})
        return redirect("privacy:club", club.slug)
    return render(request, "privacy/member.html", {"club": club, "member": found, "form": form})


def _unless_the_same(text: str) -> str:
    """The text, blank where it is the site's own: that goes on changing with the site."""
    return "" if text.split() == text_to_begin_with().split() else text


def _file(told: dict[str, Any], name: str) -> HttpResponse:
    body = json.dumps(told, ensure_ascii=False, indent=2)
    answer = HttpResponse(body, content_type="application/json; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


def _by(request: HttpRequest) -> str:
    return request.user.get_username()
