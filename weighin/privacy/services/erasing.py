"""Erase names: one angler's on request, those of old seasons in one act, and an official's account."""

from collections.abc import Iterable

from django.utils.translation import gettext, ngettext

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.accounts.services.security_log import forget_person
from weighin.audit.models import HistoryEntry, KeptAside
from weighin.audit.services import log_history, writing
from weighin.clubs.domain import dependents
from weighin.clubs.models import Club, Membership
from weighin.events.models import Event
from weighin.privacy.domain.faults import (
    LAST_DIRECTOR_STAYS,
    MEMBER_ELSEWHERE,
    NAME_BLANK,
    NAME_NOT_KEPT,
    NO_LIMIT_SET,
    NOTHING_TO_ERASE,
    USER_NAME_NOT_TYPED,
)
from weighin.privacy.domain.words import anything, says
from weighin.privacy.queries.decided import NamedSeason, named_seasons, old_seasons, privacy_of
from weighin.roster.models import Angler
from weighin.roster.services.erasing import KEPT_LONG_ENOUGH, erase_anglers
from weighin.rules.faults import Faults
from weighin.rules.look_alikes import folded_name
from weighin.signup.queries.sign_ups import holding_names, texts_of_person
from weighin.signup.services.erasing import erase_from_sign_ups

ACCOUNT_ERASED = "account.erased"


def erase_name(club: Club, name: str, by: str) -> int:
    """Erase an angler from every event of the club; how many lines of teams it were. Raises Faults for ``name``."""
    if not name.strip():
        raise Faults([NAME_BLANK.at("name")])
    with writing():
        named = Angler.objects.filter(entry__event__season__club=club, erased_on=None).select_related("entry")
        gone: dict[int, list[Angler]] = {}
        for angler in named:
            if folded_name(angler.name) == folded_name(name):
                gone.setdefault(angler.entry.event_id, []).append(angler)
        tells_of = says(name)
        aside = {row.event_id for row in KeptAside.objects.filter(club_id=club.pk) if tells_of(row.words)}
        signed = {
            row.event_id
            for row in holding_names(Event.everyone.filter(season__club=club))
            if any(tells_of(text) for text in texts_of_person(row))
        }
        if not gone and not aside and not signed:
            raise Faults([NAME_NOT_KEPT.at("name", name=name.strip())])
        for event in Event.everyone.filter(season__club=club, pk__in={*gone, *aside, *signed}).order_by("pk"):
            erase_anglers(event, gone.get(event.pk, []), tells_of, by)
            erase_from_sign_ups(event, gone.get(event.pk, []), tells_of, by)
    return sum(map(len, gone.values()))


def erase_old_names(club: Club, by: str) -> list[NamedSeason]:
    """Erase the names and teams' notes of every season that the club keeps no longer, in one act; what it was.

    Raises Faults when the club has set no limit, or nothing is that old.
    """
    with writing():
        keep = privacy_of(club).keep_seasons
        if keep is None:
            raise Faults([NO_LIMIT_SET.at("", club=club.name)])
        old = old_seasons(named_seasons(club), keep)
        if not old:
            raise Faults([NOTHING_TO_ERASE.at("", seasons=keep)])
        for event in Event.everyone.filter(season__in=[one.season for one in old]).order_by("pk"):
            anglers = Angler.objects.filter(entry__event=event, erased_on=None)
            erase_anglers(event, anglers, anything, by, KEPT_LONG_ENOUGH)
            erase_from_sign_ups(event, (), anything, by)
        names = sum(one.names for one in old)
        sentence = ngettext(
            "%(n)s angler’s name of season %(seasons)s erased, kept no longer",
            "%(n)s anglers' names of season %(seasons)s erased, kept no longer",
            names,
        ) % {"n": names, "seasons": ", ".join(one.season.name for one in old)}
        details = {"seasons": [one.season.slug for one in old], "names": names, "notes": sum(one.notes for one in old)}
        log_history(by, "names.old_erased", sentence, club_id=club.pk, details=details)
    return old


def erase_account(person: User, typed: str, by: str, asked_in: Club | None = None) -> str:
    """Erase an account with everything that hangs on it; what the person is called from now on, such as 'former official 3'.

    ``typed`` is the user name once more. A director does it ``asked_in`` a club, for somebody who is a member of no
    other. What the person wrote keeps the user name, which nobody else can take. Raises Faults for ``typed``, and for
    the last director of a club.
    """
    if typed.strip().casefold() != person.username.casefold():
        raise Faults([USER_NAME_NOT_TYPED.at("typed", username=person.username)])
    with writing():
        members = list(Membership.objects.select_for_update(of=("self",)).filter(user=person).select_related("club"))
        if asked_in is not None and any(member.club_id != asked_in.pk for member in members):
            raise Faults([MEMBER_ELSEWHERE.at("", person=str(person))])
        _other_directors(person, members)
        number = HistoryEntry.objects.filter(act=ACCOUNT_ERASED).values("subject").distinct().count() + 1
        called = gettext("former official %(n)s") % {"n": number}
        sentence = gettext("An account is erased: %(called)s. What was written with it keeps the user name") % {
            "called": called
        }
        # A person who erases their own account is not named by it once more
        actor = called if by == person.username else by
        clubs: list[int | None] = [member.club_id for member in members]
        for club_id in clubs or [None]:
            log_history(actor, ACCOUNT_ERASED, sentence, club_id=club_id, subject=called)
        forget_person(person, called)
        person.delete()
        for member in members:
            dependents.changed.send(Membership, club_id=member.club_id)
    return called


def _other_directors(person: User, members: Iterable[Membership]) -> None:
    for member in members:
        others = Membership.objects.filter(club=member.club, role=Role.DIRECTOR).exclude(user=person)
        if member.role == Role.DIRECTOR and not others.exists():
            raise Faults([LAST_DIRECTOR_STAYS.at("typed", person=str(person), club=member.club.name)])
