"""Pages that open without the network: what such a page is made of, and the worker that keeps it on the device."""

import json
from collections.abc import Iterable
from hashlib import sha256

from django.http import HttpResponse
from django.templatetags.static import static

EVERY_PAGE = ("weighin/light.js", "weighin/icon.svg")
WORKER = "weighin/table-worker.js"


def names_of(styles: Iterable[str], scripts: Iterable[str]) -> tuple[str, ...]:
    """The static files of a page with these styles and scripts."""
    return (*(f"weighin/{name}.css" for name in styles), *(f"weighin/{name}.js" for name in scripts), *EVERY_PAGE)


def worker_of(page: str, text: str, names: Iterable[str]) -> HttpResponse:
    """The worker of the page at ``page`` that reads ``text``, with the files it keeps.

    Its bytes change, and browsers take it anew, when the page or a file changes.
    """
    files = [static(name) for name in names]
    version = sha256("\n".join([text, *files]).encode()).hexdigest()[:16]
    lines = [
        f"const PAGE = {json.dumps(page)};",
        f"const FILES = {json.dumps(files)};",
        f"const VERSION = {json.dumps(version)};",
        f"importScripts({json.dumps(static(WORKER))});",
    ]
    return HttpResponse(
        "\n".join(lines) + "\n", content_type="text/javascript; charset=utf-8", headers={"Cache-Control": "no-cache"}
    )
