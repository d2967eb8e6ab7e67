"""The page of the scale table: a shell that works without the network, and the worker that keeps it on the tablet.

Everything about the event comes from the station's document, which the page asks for with its token or its log-in.
"""

from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext_lazy
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.slips.domain.in_words import LABELS
from weighin.ui.views.offline import names_of, worker_of

STYLES = ("site/tokens", "site/base", "site/head", "site/forms", "table")
COUNTS = (("alive", gettext_lazy("Alive")), ("dead", gettext_lazy("Dead")), ("short", gettext_lazy("Short")))
# Draws codes; fetched by the page only when one is asked for, but kept on the tablet
CODES = "weighin/vendor/qrcode-generator.js"


@require_safe
@ensure_csrf_cookie
@allow(Can.RECORD_SLIP)
def scales_table(request: HttpRequest, event: Event) -> HttpResponse:
    """The page at the table for somebody who has signed in."""
    return HttpResponse(_members_page(request, event))


@require_safe
@allow(Can.RECORD_SLIP)
def scales_table_worker(request: HttpRequest, event: Event) -> HttpResponse:
    """The worker of that page."""
    return worker_of(reverse("stations:scales_table", args=(event.slug,)), _members_page(request, event), _files())


@require_safe
def paired_table(request: HttpRequest, event_slug: str) -> HttpResponse:
    """The same page for a paired tablet: the token stands behind the # of the address, which no server sees."""
    return HttpResponse(_paired_page(event_slug))


@require_safe
def paired_table_worker(request: HttpRequest, event_slug: str) -> HttpResponse:
    """The worker of that page."""
    return worker_of(reverse("stations:paired_table", args=(event_slug,)), _paired_page(event_slug), _files())


def _files() -> tuple[str, ...]:
    return (*names_of(STYLES, "table/page"), CODES)


def _members_page(request: HttpRequest, event: Event) -> str:
    return _page(event.slug, "log-in", event.name, str(request.user))


def _paired_page(event_slug: str) -> str:
    return _page(event_slug, "token")


def _page(slug: str, way: str, name: str = "", official: str = "") -> str:
    context = {
        "slug": slug,
        "way": way,
        "name": name,
        "official": official,
        "styles": STYLES,
        "counts": COUNTS,
        "labels": LABELS,
        "codes": CODES,
    }
    return render_to_string("stations/table.html", context)
