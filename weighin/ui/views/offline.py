"""Pages that open without the network: what such a page is made of, and the worker that keeps it on the device."""

import json
from collections.abc import Iterable
from hashlib import sha256

from django.http import HttpResponse
from django.templatetags.static import static

from weighin.ui import catalogue
from weighin.ui.modules import files_of, module

EVERY_PAGE = (module("site/light"), "weighin/icon.svg", "weighin/site.webmanifest")
WORKER = module("device/page-worker")


def names_of(styles: Iterable[str], *modules: str) -> tuple[str, ...]:
    """The static files of a page with these styles and modules."""
    return (*(f"weighin/css/{name}.css" for name in styles), *files_of(*modules), *EVERY_PAGE)


def worker_of(page: str, text: str, names: Iterable[str]) -> HttpResponse:
    """The worker of the page at ``page`` that reads ``text``, with the files it keeps.

    Its bytes change, and browsers take it anew, when the page or a file changes.
    """
    files = [*(static(name) for name in names), *filter(None, [catalogue.address()])]
    version = sha256("\n".join([text, *files]).encode()).hexdigest()[:16]
    listed = json.dumps(files, separators=(",", ":"))
    lines = [
        f"const PAGE = {json.dumps(page)};",
        f"const FILES = {listed};",
        f"const VERSION = {json.dumps(version)};",
        f"importScripts({json.dumps(static(WORKER))});",
    ]
    return HttpResponse(
        "\n".join(lines) + "\n", content_type="text/javascript; charset=utf-8", headers={"Cache-Control": "no-cache"}
    )
