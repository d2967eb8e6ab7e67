"""Tell a team by e-mail what became of its sign-up. A letter says nothing that somebody typed: its address may be a stranger's."""

from datetime import timedelta

from django.urls import reverse
from django.utils import timezone, translation
from django.utils.translation import gettext

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.letters.queries import mail_is_set
from weighin.letters.services.queueing import queue_letter
from weighin.roster.models import Entry
from weighin.signup.domain.tokens import token_of
from weighin.signup.models import SignUp, SignUpTerms
from weighin.signup.queries.places import places_of
from weighin.signup.queries.sign_ups import email_of
from weighin.ui import figures

APART = timedelta(hours=1)  # between two letters to one address: nobody's mailbox is filled from here


def link_of(sign_up: SignUp) -> str:
    """The path of the team's own page."""
    return reverse("signup:team", args=[token_of(sign_up.pk, sign_up.link_number)])


def tell(sign_up: SignUp, what: str, again: str = "") -> None:
    """Queue the letter that says ``what``: ``came_in``, ``entered``, ``waits``, ``has_place``, ``lost_place``, ``refused``.

    Once each, and ``has_place`` and ``lost_place`` once for each ``again``; in the language of the page that was filled in.
    """
    with translation.override(sign_up.language):
        _tell(sign_up, what, again)


def _tell(sign_up: SignUp, what: str, again: str) -> None:
    event = sign_up.event
    said = {"event": event.name, "date": figures.day(event.date), "club": event.club.name}
    subjects = {
        "came_in": gettext("Sign-up for %(event)s"),
        "entered": gettext("You are entered: %(event)s"),
        "waits": gettext("You are on the waiting list: %(event)s"),
        "has_place": gettext("You have a place now: %(event)s"),
        "lost_place": gettext("You are on the waiting list now: %(event)s"),
        "refused": gettext("Your sign-up was not accepted: %(event)s"),
    }
    sentences = {
        "came_in": gettext(
            "A team signed up for %(event)s of %(club)s on %(date)s with this address. The club checks it first."
        ),
        "entered": gettext("A team that signed up with this address is entered in %(event)s of %(club)s on %(date)s."),
        "waits": gettext(
            "A team that signed up with this address is on the waiting list of %(event)s of %(club)s on %(date)s. Teams that have paid come first."
        ),
        "has_place": gettext("A place is free: your team is in %(event)s of %(club)s on %(date)s."),
        "lost_place": gettext(
            "Teams that have paid come first, so your team waits for a place in %(event)s of %(club)s on %(date)s."
        ),
        "refused": gettext(
            "The club did not accept the sign-up for %(event)s on %(date)s. The reason stands on the team’s page."
        ),
    }
    body = [
        sentences[what] % said,
        gettext("The team’s own page, with what is owed and the way to withdraw. Whoever has this link can open it:")
        + f"\n{sign_up.site}{link_of(sign_up)}",
        gettext("If you did not sign up, ignore this e-mail, or withdraw the sign-up on that page."),
    ]
    queue_letter(
        f"sign-up {sign_up.pk} {what}{again and f' {again}'}",
        email_of(sign_up),
        subjects[what] % said,
        "\n\n".join(body) + "\n",
        club_id=event.season.club_id,
        event_id=event.pk,
        apart=APART,
    )


def tell_places(event: Event) -> None:
    """Tell each team that signed up when a place frees for it, or paid teams take the one that it had."""
    places = places_of(event)
    inside, waiting = {entry.pk for entry in places.inside}, {entry.pk for entry in places.waiting}
    entered = SignUp.objects.filter(event=event, entry__status=Entry.Status.ENTERED)
    gained = list(entered.filter(told_to_wait=True, entry__in=inside))
    lost = list(entered.filter(told_to_wait=False, entry__in=waiting))
    if not gained and not lost:
        return
    with writing():
        for what, rows in (("has_place", gained), ("lost_place", lost)):
            for row in rows:
                tell(row, what, str(event.revision))
                SignUp.objects.filter(pk=row.pk).update(told_to_wait=what == "lost_place")


def tell_all_places() -> None:
    """Do so for every event to come whose places are limited: payments and withdrawals happen elsewhere."""
    if not mail_is_set():
        return
    today = timezone.now().date()
    limited = SignUpTerms.objects.filter(
        places__isnull=False, event__date__gte=today, event__closed_at=None, event__rehearsal_of=None
    )
    for terms in limited.select_related("event"):
        tell_places(terms.event)
