"""The sentences of the scripts in another language than English."""

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from weighin.ui import catalogue as catalogues

FOR_GOOD = "public, max-age=31536000, immutable"


@require_safe
def catalogue(request: HttpRequest, language: str, version: str) -> HttpResponse:
    """The catalogue of a language that the site has; an older version's address gives the one of now."""
    if language not in dict(settings.LANGUAGES):
        raise Http404
    kept = FOR_GOOD if version == catalogues.version(language) else "no-cache"
    return HttpResponse(
        catalogues.script(language), content_type="text/javascript; charset=utf-8", headers={"Cache-Control": kept}
    )
