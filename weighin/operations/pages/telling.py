"""The page of words to the teams: each with its text, who is reached how, and who said it already, and when."""

from dataclasses import dataclass

from django.utils.translation import gettext, ngettext

from weighin.clubs.access import can_in
from weighin.events.models import Event
from weighin.letters.models import Letter
from weighin.letters.queries import letters_of, mail_is_set
from weighin.operations.domain.word import PREFIX, Word, key_of
from weighin.operations.queries.occasions import Told, told
from weighin.schedule.pages.notices import Reached


@dataclass(frozen=True)
class TeamTold:
    """A team, and what became of the word to it, in words; ``rings`` it whom no e-mail has reached."""

    reached: Reached
    state: str
    rings: bool


@dataclass(frozen=True)
class WordShown:
    """A word on its page. ``mails`` may be sent now, ``others`` are to be told by phone or in person."""

    word: Word
    may: bool
    said: tuple[tuple[Told, str], ...]
    teams: tuple[TeamTold, ...]
    mails: int
    others: int
    phones: tuple[str, ...]


def shown(event: Event, words: list[Word], user: object) -> list[WordShown]:
    """The words with what was said; the same number of queries for one team and many."""
    said, letters = told(event), letters_of(event.pk, f"{PREFIX}{event.pk} ")
    return [
        _shown(event, word, said.get(word.about, []), letters, can_in(user, event.club, word.can)) for word in words
    ]


def _shown(event: Event, word: Word, said: list[Told], letters: dict[str, Letter], may: bool) -> WordShown:
    by_mail = frozenset[str]().union(*(one.teams for one in said if one.by_mail))
    otherwise = frozenset[str]().union(*(one.teams for one in said if not one.by_mail))
    mails = mail_is_set()
    teams, left, others = [], 0, []
    for team in word.teams:
        letter = letters.get(key_of(event.pk, word.about, team.who))
        refused = letter is not None and letter.given_up_at is not None
        if team.who in otherwise:
            state = gettext("told by phone or in person")
        elif team.who in by_mail:
            state = _became(letter)
        else:
            state = gettext("not told yet")
            left += mails and bool(team.email)
            if not (mails and team.email):
                others.append(team)
        teams.append(
            TeamTold(team, state, refused or (team.who not in by_mail | otherwise and not (mails and team.email)))
        )
    phones = tuple(one.reached.phone for one in teams if one.rings and one.reached.phone)
    return WordShown(word, may, tuple((one, _how(one)) for one in said), tuple(teams), left, len(others), phones)


def _became(letter: Letter | None) -> str:
    if letter is None or letter.sent_at is not None:
        return gettext("e-mail sent")
    if letter.given_up_at is not None:
        return gettext("e-mail not delivered: call the team")
    return gettext("e-mail waits for a network")


def _how(one: Told) -> str:
    count = len(one.teams)
    if one.by_mail:
        return ngettext("e-mail to %(n)s team", "e-mail to %(n)s teams", count) % {"n": count}
    return ngettext("%(n)s team told by phone or in person", "%(n)s teams told by phone or in person", count) % {
        "n": count
    }
