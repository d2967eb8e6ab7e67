"""From where a request comes, what is refused to somebody who is signed in, and a director's two hours."""

from collections.abc import Callable

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse

from weighin.accounts.domain.caller import asking_from
from weighin.accounts.models import SecurityEntry
from weighin.accounts.services.security_log import log_refusal
from weighin.accounts.services.sessions import SEEN, note_seen


class SecurityMiddleware:
    """Middleware below those of sessions and authentication. A page that asks for no session is left without one."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        with asking_from(request.META.get("REMOTE_ADDR", "")):
            response = self.get_response(request)
            session = request.session
            # A page that looks by itself whether something is new does not keep an empty chair signed in
            by_itself = "HTTP_HX_REQUEST" in request.META and request.method in ("GET", "HEAD")
            if session.accessed and not by_itself and SEEN in session:
                note_seen(session)
        return response

    def process_exception(self, request: HttpRequest, exception: Exception) -> None:
        """Keep who was refused what of which club; pages that are simply not there are no refusals."""
        club_id = getattr(exception, "club_id", None)
        if club_id is None or not isinstance(exception, PermissionDenied | Http404):
            return
        about = f"{request.method} {request.path}"
        log_refusal(SecurityEntry.Kind.REFUSED, request.user, club_id=club_id, about=about)
