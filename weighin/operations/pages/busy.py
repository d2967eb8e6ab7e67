"""What is said to who comes when the server is full; it is answered without the site, so it names no file."""

import json
from functools import cache

from django.template.loader import render_to_string
from django.utils.translation import gettext

from weighin.serving.channel import RETRY_SECONDS


def busy_words(path: str) -> tuple[str, bytes]:
    """The media type and the text: a line of JSON for programs and tablets, a page for people."""
    return _line() if path.startswith("/api/") else _page()


@cache
def _line() -> tuple[str, bytes]:
    said = gettext("Too many are asking at once: keep what was not answered and send it again.")
    return "application/json", json.dumps({"error": said}).encode()


@cache
def _page() -> tuple[str, bytes]:
    return "text/html; charset=utf-8", render_to_string("operations/busy.html", {"seconds": RETRY_SECONDS}).encode()
