"""What stations ask over HTTP: who they are, the body's form, and the answers in JSON.

A station shows its token, and needs no CSRF token then; a page at the table has its log-in session and does.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import lru_cache, wraps
from hashlib import sha256
from typing import Any

from django.core.exceptions import RequestDataTooBig
from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse, RawPostDataException, UnreadablePostError
from django.http.response import HttpResponseBase
from django.middleware.csrf import CsrfViewMiddleware
from django.urls import reverse
from django.utils import timezone
from django.utils.decorators import decorator_from_middleware
from django.utils.translation import get_language
from django.views.decorators.csrf import csrf_exempt

from weighin.accounts.domain.roles import Can
from weighin.accounts.models import SecurityEntry
from weighin.accounts.services.security_log import log_refusal
from weighin.audit.database.life import database_life
from weighin.clubs.access import cans_in
from weighin.events.access import find
from weighin.events.domain.clock import clock_off
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Outcome, Sender
from weighin.records.parsing.json_body import MOST_BYTES, BodyRefused, read_body
from weighin.records.services.door import receive
from weighin.records.services.record_type import RecordType
from weighin.rules.faults import Fault
from weighin.stations.domain import cans
from weighin.stations.queries.paired import Paired
from weighin.stations.queries.senders import OF_A_MEMBER, sender_of
from weighin.stations.services import stations
from weighin.stations.services.signatures import SIGNED_FOR_SECONDS, signer_of
from weighin.stations.services.wrong_tokens import seconds_to_wait
from weighin.ui.outages import RETRY_SECONDS, Outage, log_outage, outage_of

FORM = "2"  # goes up when the document for tablets changes its form
# Made once: json.dumps would make one for every answer
_in_json = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode
BEARER, SIGNED = "bearer", "signed"
ASKS = {"WWW-Authenticate": 'Bearer realm="weighin"'}
WORDS = cans.CANS
ANY = "/0/"
IN_FULL = "labels"  # what a page prefers, which shows a fault as it comes (RFC 7240)
NO_DATABASE = "The site's database does not work just now: keep what was not answered and send it again."


class Refused(Exception):
    """An answer that is not 200: its status and one clear line."""

    def __init__(self, status: int, line: str, **headers: str):
        super().__init__(line)
        self.status, self.line, self.headers = status, line, headers


def in_json(told: Any, headers: Mapping[str, str], status: int = 200) -> HttpResponse:
    """An answer in JSON."""
    return HttpResponse(_in_json(told).encode(), status=status, content_type="application/json", headers=headers)


def _line(status: int, line: str, **headers: str) -> HttpResponse:
    return in_json({"error": line}, {"Cache-Control": "no-store", **headers}, status)


class _CsrfInJson(CsrfViewMiddleware):
    """Django's check; a refusal is one line of JSON, as everywhere here."""

    def _reject(self, request: HttpRequest, reason: str) -> HttpResponse:
        return _line(403, "The page's security token is missing or old: load the page again, then send this again.")


_with_csrf = decorator_from_middleware(_CsrfInJson)


@dataclass(frozen=True)
class Caller:
    """Who asks, of which event, and what it may do."""

    event_id: int
    event_slug: str
    sender: Sender
    sees: frozenset[str] = frozenset(cans.CANS)
    signed_at: int | None = None  # seconds since 1970, where the request is signed


View = Callable[[HttpRequest, Caller], HttpResponseBase]


def address_of(method: str, can: str | None) -> Callable[[View], Callable[..., HttpResponseBase]]:
    """Decorate a view of ``event_slug``: it gets the caller. ``can`` is what it must be able to do; None = see the event.

    Answers 401 without a token or log-in, 403 when the token is of another event or cannot do this, 404 to people of
    other clubs, 405 for another method, 429 for too many wrong tokens; each with one line of JSON.
    """

    def decorate(view: View) -> Callable[..., HttpResponseBase]:
        def by_session(request: HttpRequest, event_slug: str) -> HttpResponseBase:
            return _answered(lambda: view(request, _member(request, event_slug, can)))

        protected = _with_csrf(by_session)

        @csrf_exempt
        @wraps(view)
        def station_view(request: HttpRequest, event_slug: str) -> HttpResponseBase:
            if request.method not in (method, "HEAD" if method == "GET" else method):
                return _line(405, f"Only {method} is answered here.", Allow=method)
            if "HTTP_AUTHORIZATION" in request.META:
                return _answered(lambda: view(request, _station(request, event_slug, can)))
            return protected(request, event_slug)

        station_view.by_token = True  # type: ignore[attr-defined]
        return station_view

    return decorate


def take_in(request: HttpRequest, caller: Caller, record: RecordType[Any], key: str, page: str = "") -> HttpResponse:
    """Read the body, write its items one by one, and answer for each. ``page`` is the address of one kept item."""
    items, sent = read_body(body_of(request), key)
    answers = receive(record, caller.event_id, items, replace(caller.sender, sent_at=sent))
    revision = answers[-1][1].revision or Event.everyone.values_list("revision", flat=True).get(pk=caller.event_id)
    in_full = IN_FULL in request.META.get("HTTP_PREFER", "")
    labels = {field.name: str(field.label) for field in record.fields if field.label} if in_full else None
    said = [_told(request, caller, *answer, page, labels) for answer in answers]
    told: dict[str, Any] = {key: said, "revision": revision}
    off = clock_off(timezone.now(), sent)
    if off is not None:
        told["clock"] = {"off_seconds": round(off.total_seconds()), "message": _clock_in_words(off)}
    return in_json(told, {"Cache-Control": "no-store"})


def _told(
    request: HttpRequest,
    caller: Caller,
    draft: Draft,
    outcome: Outcome[Any],
    page: str,
    labels: Mapping[str, str] | None,
) -> dict[str, Any]:
    number, url = getattr(outcome.row, "number", None), None
    if page and number is not None:
        # Whoever names a host that is none of ours does not come so far
        site = f"{request.scheme}://{request.META.get('HTTP_HOST') or request.get_host()}"
        url = site + _page_of_any(page, caller.event_slug).replace(ANY, f"/{number}/")
    return {
        "id": draft.said_id,
        "state": outcome.state,
        "slip": number,
        "url": url,
        "faults": [
            {"field": fault.field, "message": fault.message}
            | ({} if labels is None else {"says": _in_full(fault, labels)})
            for fault in outcome.faults
        ],
    }


def _in_full(fault: Fault, labels: Mapping[str, str]) -> str:
    """The fault as a sentence by itself, with its field and those it names as a page calls them."""
    said, label = fault.in_labels(labels).message, labels.get(fault.field)
    whole = f"{label}: {said}" if label and not said.startswith(f"“{label}”") else said[:1].upper() + said[1:]
    return whole if whole.endswith((".", "!", "?")) else f"{whole}."


@lru_cache(maxsize=100)
def _page_of_any(page: str, event_slug: str) -> str:
    return reverse(page, args=(event_slug, 0))


def body_of(request: HttpRequest) -> bytes:
    """What was sent. Raises BodyRefused when it is too much, or did not come through."""
    length = request.META.get("CONTENT_LENGTH") or "0"
    if length.isdigit() and int(length) > MOST_BYTES:
        raise BodyRefused(f"The body has more than {MOST_BYTES // 1024} KiB: send fewer at once.")
    try:
        return request.body
    except (RawPostDataException, UnreadablePostError, RequestDataTooBig):
        raise BodyRefused("The body did not come through whole: send it again as application/json.") from None


def _clock_in_words(off: timedelta) -> str:
    seconds = round(abs(off).total_seconds())
    size = f"{seconds // 60} min {seconds % 60} s" if seconds < 7200 else f"{seconds / 3600:.1f} hours"
    way = "ahead of" if off > timedelta(0) else "behind"
    return f"This device's clock is {size} {way} the site's: set it. What it sent is marked."


def _station(request: HttpRequest, slug: str, can: str | None) -> Caller:
    """The caller by its token. Raises Refused."""
    said = request.META["HTTP_AUTHORIZATION"]
    scheme, _, shown = said.partition(" ")
    at = None
    if scheme.casefold() == BEARER:
        found = stations.station_of(shown.strip())
    elif scheme.casefold() == SIGNED:
        found, at = _signer(request, shown.strip())
    else:
        raise Refused(401, "Send the tablet's token as 'Authorization: Bearer TOKEN'.", **ASKS)
    if found is None:
        wait = seconds_to_wait(request.META.get("REMOTE_ADDR", ""))
        if wait:
            line = f"Too many wrong tokens from this address: wait {wait} s. A right token is answered all the while."
            raise Refused(429, line, **{"Retry-After": str(wait)})
        _log_refused(slug, "an unknown token")
        raise Refused(401, "This token is not known here: pair the tablet again.", **ASKS)
    if found.event_slug != slug:
        _log_refused(slug, f"station {found.name} of another event")
        raise Refused(403, "This token is for another event: pair the tablet with this one.")
    if found.closed:
        raise Refused(401, f"{found.event_name} is closed, and its tablets' tokens with it.", **ASKS)
    if found.withdrawn:
        _log_refused(slug, f"station {found.name}, withdrawn")
        raise Refused(401, f"The token of tablet {found.name} was withdrawn: ask a director to pair it again.", **ASKS)
    if timezone.now() >= found.ends:
        line = f"The token of tablet {found.name} has ended, a day after the event: ask a director to pair it again."
        raise Refused(401, line, **ASKS)
    if can is not None and can not in found.cans:
        raise Refused(403, f"Tablet {found.name} cannot {WORDS[can]}: ask a director to pair it for that.")
    return Caller(found.event_id, slug, Sender(f"station {found.name}", found.cans | {"correct"}), found.cans, at)


def _signer(request: HttpRequest, shown: str) -> tuple[Paired | None, int]:
    """The station that signed the request, and when; None where no station did so. Raises Refused for another time than now."""
    found, at = signer_of(shown, request.method or "", request.get_full_path(), body_of(request))
    off = abs(timezone.now().timestamp() - at)
    if found is not None and off > SIGNED_FOR_SECONDS:
        line = f"This was signed {round(off)} s from now by the site's clock: sign it again by the Date of this answer."
        raise Refused(401, line, **ASKS)
    return found, at


def _log_refused(slug: str, about: str) -> None:
    """Keep in the security log of the event's club that a token was refused; the token itself is kept nowhere."""
    event = find(slug)
    if event is not None:
        log_refusal(SecurityEntry.Kind.TOKEN_REFUSED, club_id=event.club.pk, actor=about, about=event.name)


def _member(request: HttpRequest, slug: str, can: str | None) -> Caller:
    """The caller by the log-in session. Raises Refused."""
    if not request.user.is_authenticated:
        line = "Sign in, or send the tablet's token as 'Authorization: Bearer TOKEN'."
        raise Refused(401, line, **ASKS)
    event = find(slug)
    cans = cans_in(request.user, event.club) if event else frozenset()
    if event is None or not cans:
        if event is not None:
            log_refusal(SecurityEntry.Kind.REFUSED, request.user, club_id=event.club.pk, about=request.path)
        raise Refused(404, "There is no such event, or you are not a member of its club.")
    needed = Can.VIEW_EVENT if can is None else OF_A_MEMBER[can]
    if needed not in cans:
        log_refusal(SecurityEntry.Kind.REFUSED, request.user, club_id=event.club.pk, about=request.path)
        raise Refused(403, f"Your role in {event.club} cannot {needed.label}: ask a director of the club.")
    return Caller(event.pk, slug, sender_of(request.user, event))


def document_tag(event: Event, sender: Sender) -> str:
    """The entity tag of what a tablet or phone works from; weak, as the answer also tells the time."""
    parts = (
        FORM,
        get_language(),
        event.pk,
        event.revision,
        database_life(),
        event.name,
        event.club.name,
        event.water.name,
        sender.name,
        *sorted(sender.cans),
    )
    return 'W/"' + sha256("\n".join(map(str, parts)).encode()).hexdigest()[:24] + '"'


def _answered(answer: Callable[[], HttpResponseBase]) -> HttpResponseBase:
    try:
        return answer()
    except Refused as refused:
        return _line(refused.status, refused.line, **refused.headers)
    except BodyRefused as refused:
        return _line(400, str(refused))
    except DatabaseError as fault:
        log_outage(outage_of(fault) or Outage.OTHER, "A station's request", fault)
        return _line(503, NO_DATABASE, **{"Retry-After": str(RETRY_SECONDS)})
