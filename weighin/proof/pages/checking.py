"""The page that checks a result, as one file that needs neither a site nor a network."""

import json
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.staticfiles import finders
from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language

from weighin.ui import catalogue
from weighin.ui.classic import classic_script
from weighin.ui.lean import lean_style

STYLES = ("weighin/css/site/tokens.css", "weighin/css/check.css")
# In a text of a script these begin or end nothing of the page around it
SIGNS = {ord(">"): "\\u003E", ord("<"): "\\u003C", ord("&"): "\\u0026"}


def check_script() -> str:
    """The script of the page: checks a proof in the browser, and is ``weighinProof`` there and under Node."""
    return classic_script("proof/page", "weighinProof")


def saved_page(proof: dict[str, Any]) -> str:
    """The page with script, look and proof in it, for a disk or any web host."""
    language = get_language() or settings.LANGUAGE_CODE
    words = catalogue.script(language) if catalogue.address() else ""
    script, words = (text.replace("</", "<\\/") for text in (check_script(), words))
    style = "".join(lean_style(Path(str(finders.find(name))).read_text(encoding="utf-8")) for name in STYLES)
    told = json.dumps(proof, ensure_ascii=False).translate(SIGNS)
    parts = {
        "style": _safe(f"<style>{style}</style>"),
        "told": _safe(f'<script id="proof" type="application/json">{told}</script>'),
        "script": _safe((f"<script>{words}</script>" if words else "") + f"<script>{script}</script>"),
    }
    return render_to_string("proof/saved.html", {"proof": proof, **parts})


def _safe(text: str) -> SafeString:
    return mark_safe(text)  # noqa: S308 - our own files, and a proof whose signs of markup are written otherwise
