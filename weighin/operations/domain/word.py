"""A word to the teams: what is said, to whom, and who may say it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from weighin.accounts.domain.roles import Can
from weighin.schedule.pages.notices import Reached

PREFIX = "word "


@dataclass(frozen=True)
class Word:
    """``about`` names what it tells of, and is never that of anything else in the event. ``text`` is to be copied and
    says what everybody may read; a letter says ``head``, and of teams only what ``own`` says of its own, by
    ``Reached.who``. ``teams`` are all those whom it concerns.
    """

    about: str
    title: str
    subject: str
    text: str
    head: str
    foot: str
    can: Can
    teams: tuple[Reached, ...]
    own: Mapping[str, str] = field(default_factory=dict)

    def letter(self, who: str) -> str:
        """The e-mail to one team."""
        return "\n\n".join(filter(None, (self.head, self.own.get(who, ""), self.foot))) + "\n"


def key_of(event: int, about: str, who: str) -> str:
    """The key of the letter to one team: the same word goes to it once."""
    return f"{PREFIX}{event} {about}/{who}"


def parts_of(key: str) -> tuple[str, str]:
    """What the letter of a key is about, and to whom it goes."""
    about, _, who = key.split(" ", 2)[2].rpartition("/")
    return about, who
