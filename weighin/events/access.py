"""The one place that says who may see what of an event, and by whose clock its pages show moments: the event's."""

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.auth.decorators import login_required
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.translation import gettext, gettext_lazy

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import cans_in, require
from weighin.clubs.domain.clock import shown_by
from weighin.events.models import Event

GONE = gettext_lazy("There is no such page, or you are not a member of its club.")


def find(slug: str) -> Event | None:
    """The event of a slug with its club, season, water and rule sheet."""
    return _events().filter(slug=slug).first()


def find_public(slug: str) -> Event | None:
    """The event of a slug if anyone may read it."""
    return _events().filter(slug=slug, is_public=True).first()


def allow(can: Can) -> Callable[[Callable[..., HttpResponse]], Callable[..., HttpResponse]]:
    """Decorate a view of ``event_slug``: it gets the event, and only members whose role can do ``can`` get in.

    Strangers get 404, members without the right 403, people who have not signed in the sign-in page.
    """

    def decorate(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
        @wraps(view)
        @login_required
        def allowed_view(request: HttpRequest, event_slug: str, **kwargs: Any) -> HttpResponse:
            event = find(event_slug)
            if event is None:
                raise Http404(GONE)
            require(request.user, event.club, can)
            request.cans = cans_in(request.user, event.club)  # type: ignore[attr-defined]
            with shown_by(event.club, event.time_zone):
                return view(request, event, **kwargs)

        allowed_view.can = can  # type: ignore[attr-defined]
        return allowed_view

    return decorate


def public(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
    """Decorate a view of ``event_slug`` that anyone may open while the event is published; else 404."""

    @wraps(view)
    def public_view(request: HttpRequest, event_slug: str, **kwargs: Any) -> HttpResponse:
        event = find_public(event_slug)
        if event is None:
            raise Http404(gettext("There is no published event at this address."))
        with shown_by(event.club, event.time_zone):
            return view(request, event, **kwargs)

    public_view.can = None  # type: ignore[attr-defined]
    return public_view


def _events() -> QuerySet[Event]:
    return Event.everyone.select_related("season", "season__club", "water", "rule_sheet")
