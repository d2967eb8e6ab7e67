"""JavaScript's sentences in a language that is not English, as a script that a page names before its modules.

English needs none: its sentences stand in the modules. See ``js/site/text.js``.
"""

from functools import cache
from hashlib import sha256

from django.conf import settings
from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import get_language, override
from django.views.i18n import JavaScriptCatalog


def address() -> str:
    """Where the catalogue of the language active now is; empty for English."""
    language = get_language() or settings.LANGUAGE_CODE
    if language.partition("-")[0] == "en":
        return ""
    return reverse("public:catalogue", args=[language, version(language)])


def version(language: str) -> str:
    """A fingerprint of the language's catalogue, by which a browser may keep it for good."""
    return sha256(script(language).encode()).hexdigest()[:12]


@cache
def script(language: str) -> str:
    """The catalogue as a script, from the site's djangojs.mo of the language."""
    with override(language):
        return JavaScriptCatalog().get(HttpRequest()).content.decode()
