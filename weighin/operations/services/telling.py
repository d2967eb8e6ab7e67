"""Say a word to the teams: by e-mail, once to each; or note that it was said otherwise. What is overtaken goes no more."""

from collections import defaultdict
from collections.abc import Sequence

from django.utils.translation import gettext, ngettext

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.letters.models import Letter
from weighin.letters.queries import mail_is_set, mark_of_address, waiting
from weighin.letters.services.queueing import queue_letter
from weighin.letters.services.withdrawing import withdraw
from weighin.operations.domain.faults import NO_MAIL_SET, TOLD_ALREADY, WORD_OVERTAKEN
from weighin.operations.domain.word import PREFIX, Word, key_of, parts_of
from weighin.operations.queries.occasions import TOLD, occasions, told_teams
from weighin.rules.faults import Faults
from weighin.schedule.pages.notices import Reached, reached


def send_word(event: Event, word: Word, by: str) -> int:
    """Queue the word to each team that has an e-mail address and has not been told; how many. Raises Faults."""
    if not mail_is_set():
        raise Faults([NO_MAIL_SET.at("")])
    with writing():
        held = _held(event)
        teams = _not_told(held, word, [team for team in word.teams if team.email])
        club = held.season.club_id
        for team in teams:
            key = key_of(held.pk, word.about, team.who)
            queue_letter(key, team.email, word.subject, word.letter(team.who), club_id=club, event_id=held.pk)
        _note(held, word, by, teams, by_mail=True)
    return len(teams)


def note_said(event: Event, word: Word, by: str) -> int:
    """Note that the teams that no e-mail reaches were told, by phone or in person; how many. Raises Faults."""
    mails = mail_is_set()
    with writing():
        held = _held(event)
        teams = _not_told(held, word, [team for team in word.teams if not (mails and team.email)])
        _note(held, word, by, teams, by_mail=False)
    return len(teams)


def withdraw_what_is_over() -> None:
    """Take out of the queue what was overtaken: a boat that came in, times moved again, a later result; and what would go
    to an address that stands with the team no more."""
    by_event: dict[int, list[Letter]] = defaultdict(list)
    for letter in waiting().filter(key__startswith=PREFIX).exclude(event_id=None):
        assert letter.event_id is not None
        by_event[letter.event_id].append(letter)
    events = {event.pk: event for event in Event.objects.filter(pk__in=by_event).select_related("season__club")}
    over: list[Letter] = []
    for pk, letters in by_event.items():
        event = events.get(pk)
        standing = {} if event is None else {one.about: one.of for one in occasions(event)}
        marks = {} if event is None else {team.who: mark_of_address(team.email) for team in reached(event)}
        for letter in letters:
            about, who = parts_of(letter.key)
            of = standing.get(about)
            still = of is not None and (not isinstance(of, tuple) or any(str(one.entry.number) == who for one in of))
            if not still or marks.get(who) != letter.address_mark:
                over.append(letter)
    if over:
        withdraw(over)


def _held(event: Event) -> Event:
    """The event, held so that two people say nothing twice; a closed one too."""
    return (
        Event.objects.select_for_update(of=("self",))
        .select_related("season__club", "water", "rule_sheet")
        .get(pk=event.pk)
    )


def _not_told(event: Event, word: Word, teams: Sequence[Reached]) -> list[Reached]:
    if word.about not in {one.about for one in occasions(event)}:
        raise Faults([WORD_OVERTAKEN.at("")])
    known = told_teams(event, word.about)
    found = [team for team in teams if team.who not in known]
    if not found:
        raise Faults([TOLD_ALREADY.at("")])
    return found


def _note(event: Event, word: Word, by: str, teams: Sequence[Reached], *, by_mail: bool) -> None:
    count = len(teams)
    said = (
        ngettext("%(word)s: e-mail to %(n)s team", "%(word)s: e-mail to %(n)s teams", count)
        if by_mail
        else ngettext(
            "%(word)s: %(n)s team told by phone or in person", "%(word)s: %(n)s teams told by phone or in person", count
        )
    )
    log_history(
        by,
        TOLD,
        said % {"word": word.title, "n": count},
        club_id=event.season.club_id,
        event_id=event.pk,
        subject=gettext("messages to teams"),
        details={"about": word.about, "by_mail": by_mail, "teams": [team.who for team in teams]},
    )
