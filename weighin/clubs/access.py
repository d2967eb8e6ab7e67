"""Who may open a club's pages."""

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.auth.decorators import login_required
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.translation import gettext

from weighin.accounts.domain.roles import TABLE, Can, Role, allowed
from weighin.clubs.domain.clock import shown_by
from weighin.clubs.models import Club, Membership
from weighin.clubs.queries import clock_of


def role_in(user: Any, club: Club) -> str | None:
    """The user's role in the club, or None for a stranger. Asked once a request and club."""
    if not user.is_authenticated:
        return None
    if not hasattr(user, "_roles"):
        user._roles = dict(Membership.objects.filter(user=user).values_list("club_id", "role"))
    roles: dict[int, str] = user._roles
    return roles.get(club.pk)


def can_in(user: Any, club: Club, can: Can) -> bool:
    """Whether the user may do ``can`` in the club."""
    role = role_in(user, club)
    return role is not None and allowed(role, can)


def cans_in(user: Any, club: Club) -> frozenset[str]:
    """Everything the user may do in the club, as the values of ``Can``."""
    role = role_in(user, club)
    return frozenset(can.value for can in TABLE[Role(role)]) if role in Role.values else frozenset()


def cans(request: HttpRequest) -> dict[str, frozenset[str]]:
    """Context processor: what this person may do in the club whose page this is; nothing on other pages.

    Templates ask ``{% if "manage_teams" in cans %}`` and show only what works.
    """
    return {"cans": getattr(request, "cans", frozenset())}


def require(user: Any, club: Club, can: Can) -> None:
    """Let the user pass, or raise: 404 for strangers, who are not told that the club exists, 403 for members.

    Raises Http404 or PermissionDenied with a sentence; the security log keeps who it was.
    """
    role = role_in(user, club)
    refused: Http404 | PermissionDenied
    if role is None:
        refused = Http404(gettext("There is no such page, or you are not a member of its club."))
    elif not allowed(role, can):
        refused = PermissionDenied(
            gettext("As %(role)s of %(club)s you cannot %(act)s. Ask a director of the club.")
            % {"role": Role(role).label.lower(), "club": club, "act": can.label}
        )
    else:
        return
    refused.club_id = club.pk  # type: ignore[union-attr]
    raise refused


def allow_in_club(can: Can) -> Callable[[Callable[..., HttpResponse]], Callable[..., HttpResponse]]:
    """Decorate a view of ``club_slug``: it gets the club, and only members whose role can do ``can`` get in."""

    def decorate(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
        @wraps(view)
        @login_required
        def allowed_view(request: HttpRequest, club_slug: str, **kwargs: Any) -> HttpResponse:
            club = Club.objects.filter(slug=club_slug).first()
            if club is None:
                raise Http404(gettext("There is no such page, or you are not a member of its club."))
            require(request.user, club, can)
            request.cans = cans_in(request.user, club)  # type: ignore[attr-defined]
            with shown_by(club, clock_of(club)):
                return view(request, club, **kwargs)

        allowed_view.can = can  # type: ignore[attr-defined]
        return allowed_view

    return decorate
