"""The page of the scale table: a shell that works without the network, and the worker that keeps it on the tablet.

Everything about the event comes from the station's document, which the page asks for with its token or its log-in.
"""

import json
from hashlib import sha256

from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.templatetags.static import static
from django.urls import reverse
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_safe

from weighin.accounts.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event

STYLES = ("tokens", "base", "book", "forms", "table")
SCRIPTS = (
    "scoring",
    "slip-store",
    "slip-sender",
    "table-words",
    "table-doubts",
    "table-typed",
    "table-slips",
    "table-pad",
    "table-readings",
    "table",
)
COUNTS = (("alive", "Alive"), ("dead", "Dead"), ("short", "Short"))
LIGHT = "weighin/light.js"
ICON = "weighin/icon.svg"


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
    return _worker(reverse("scale:scales_table", args=(event.slug,)), _members_page(request, event))


@require_safe
def paired_table(request: HttpRequest, event_slug: str) -> HttpResponse:
    """The same page for a paired tablet: the token stands behind the # of the address, which no server sees."""
    return HttpResponse(_paired_page(event_slug))


@require_safe
def paired_table_worker(request: HttpRequest, event_slug: str) -> HttpResponse:
    """The worker of that page."""
    return _worker(reverse("scale:paired_table", args=(event_slug,)), _paired_page(event_slug))


def page_files() -> list[str]:
    """The address of every static file of the page."""
    names = [*(f"weighin/{name}.css" for name in STYLES), *(f"weighin/{name}.js" for name in SCRIPTS), LIGHT, ICON]
    return [static(name) for name in names]


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
        "scripts": SCRIPTS,
        "counts": COUNTS,
    }
    return render_to_string("scale/table.html", context)


def _worker(page: str, text: str) -> HttpResponse:
    """The worker with what it keeps; its bytes change, and browsers take it anew, when the page or a file changes."""
    files = page_files()
    version = sha256("\n".join([text, *files]).encode()).hexdigest()[:16]
    lines = [
        f"const PAGE = {json.dumps(page)};",
        f"const FILES = {json.dumps(files)};",
        f"const VERSION = {json.dumps(version)};",
        f"importScripts({json.dumps(static('weighin/table-worker.js'))});",
    ]
    return HttpResponse(
        "\n".join(lines) + "\n", content_type="text/javascript; charset=utf-8", headers={"Cache-Control": "no-cache"}
    )
