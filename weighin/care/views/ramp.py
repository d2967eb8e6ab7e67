"""The page for boat checks and care notes: a shell that works without the network, and the worker that keeps it.

Everything about the event comes from the ramp's document, which the page asks for with its token or its log-in.
"""

from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext_lazy
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.care.models import CareNote
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.ui.views.offline import names_of, worker_of

STYLES = ("site/tokens", "site/base", "site/head", "site/forms", "ramp")
# The published reflex check (RAMP: Davis 2010; Raby et al. 2012): a fish that does not do this has lost the reflex.
REFLEXES = (
    (gettext_lazy("Tail grab"), gettext_lazy("Held by the tail in the water, it bursts away.")),
    (gettext_lazy("Body flex"), gettext_lazy("Held round the middle, it bends to get free.")),
    (gettext_lazy("Head complex"), gettext_lazy("Held in the water, its gill covers beat evenly for five seconds.")),
    (gettext_lazy("Righting"), gettext_lazy("Laid on its back in the water, it turns upright within three seconds.")),
    (gettext_lazy("Eye tracking"), gettext_lazy("Rolled on its side in the water, its eye turns to stay level.")),
)


@require_safe
@ensure_csrf_cookie
@allow(Can.RECORD_CARE)
def ramp(request: HttpRequest, event: Event) -> HttpResponse:
    """The page for somebody who has signed in."""
    return HttpResponse(_members_page(request, event))


@require_safe
@allow(Can.RECORD_CARE)
def ramp_worker(request: HttpRequest, event: Event) -> HttpResponse:
    """The worker of that page."""
    return worker_of(
        reverse("care:ramp", args=(event.slug,)), _members_page(request, event), names_of(STYLES, "ramp/page")
    )


@require_safe
def paired_ramp(request: HttpRequest, event_slug: str) -> HttpResponse:
    """The same page for a paired phone: the token stands behind the # of the address, which no server sees."""
    return HttpResponse(_page(event_slug, "token"))


@require_safe
def paired_ramp_worker(request: HttpRequest, event_slug: str) -> HttpResponse:
    """The worker of that page."""
    return worker_of(
        reverse("care:paired_ramp", args=(event_slug,)), _page(event_slug, "token"), names_of(STYLES, "ramp/page")
    )


def _members_page(request: HttpRequest, event: Event) -> str:
    return _page(event.slug, "log-in", event.name, str(request.user))


def _page(slug: str, way: str, name: str = "", official: str = "") -> str:
    context = {
        "slug": slug,
        "way": way,
        "name": name,
        "official": official,
        "styles": STYLES,
        "aerations": CareNote.Aeration.choices,
        "reflexes": REFLEXES,
    }
    return render_to_string("care/ramp.html", context)
