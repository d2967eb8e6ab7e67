"""Lists of teams to take away."""

from django.http import Http404, HttpRequest, HttpResponse
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import require
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.reports.files import teams as files
from weighin.reports.files.event import TYPES
from weighin.reports.views.files import download


@require_safe
@allow(Can.EXPORT)
def teams_file(request: HttpRequest, event: Event, form: str) -> HttpResponse:
    """The list of teams; with how they are reached for those who may see it and ask for it."""
    contacts = request.GET.get("contacts") == "yes"
    if contacts:
        require(request.user, event.club, Can.SEE_CONTACTS)
    return download(files.teams_file(event, _known(form), contacts), TYPES[form], f"{event.slug}-teams.{form}")


@require_safe
@allow(Can.EXPORT)
def sign_in_file(request: HttpRequest, event: Event, form: str) -> HttpResponse:
    """The sheet to sign in on."""
    return download(files.sign_in_file(event, _known(form)), TYPES[form], f"{event.slug}-sign-in.{form}")


@require_safe
@allow(Can.MANAGE_TEAMS)
def template_file(request: HttpRequest, event: Event) -> HttpResponse:
    """An empty list with choices and notes."""
    return download(files.template_file(event), TYPES["xlsx"], f"{event.slug}-template.xlsx")


def _known(form: str) -> str:
    if form not in files.FORMS:
        raise Http404(gettext("There is no such file: choose csv or xlsx."))
    return form
