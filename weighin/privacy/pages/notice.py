"""The privacy notice: the text to begin with, and what is true of the site whatever a club writes."""

from dataclasses import dataclass

from django.utils.translation import gettext, ngettext

from weighin.clubs.models import Club
from weighin.privacy.queries.decided import privacy_of


@dataclass(frozen=True)
class Notice:
    """What a notice says: the club's text or the site's, how long names are kept, and whether the club wrote it."""

    text: str
    kept: str
    own: bool


def notice_of(club: Club | None) -> Notice:
    """The notice of a club; without one, or where the club wrote none, the site's."""
    if club is None:
        return Notice(text_to_begin_with(), gettext("Each club says how long it keeps anglers' names."), False)
    decided = privacy_of(club)
    return Notice(
        decided.notice or text_to_begin_with(), kept_said(decided.decided, decided.keep_seasons), bool(decided.notice)
    )


def kept_said(decided: bool, seasons: int | None) -> str:
    """How long a club keeps anglers' names, as a sentence."""
    if not decided:
        return gettext(
            "The club has not decided yet how long it keeps anglers' names; until then they are kept until they are erased."
        )
    if seasons is None:
        return gettext("Anglers' names are kept until somebody asks to have them erased.")
    return ngettext(
        "Anglers' names are kept for the latest season and are then erased.",
        "Anglers' names are kept for the latest %(n)s seasons and are then erased.",
        seasons,
    ) % {"n": seasons}


def text_to_begin_with() -> str:
    """The notice that stands until a club writes its own; a blank line begins a paragraph."""
    return "\n\n".join(
        (
            gettext(
                "What is public: once an event is published, anyone can read its teams, boat numbers, fish, weights, "
                "places, points and prizes. A team’s name is public, so choose one that you want to read there."
            ),
            gettext(
                "What is for the club alone: anglers' names, notes of teams, whether a team fishes as a youth team, and how a "
                "boat cared for its fish. Officials need them at the ramp, at check-in and at the scales. They are on "
                "no public page, in no public file and found by no public search."
            ),
            gettext(
                "How you are reached: a phone number, an emergency contact and an e-mail address, where you gave them. "
                "Directors and the desk see them, and whoever checks boats in while yours is out. They are never "
                "published, and go with the name when it is erased."
            ),
            gettext(
                "When a team signs up by itself: what it wrote is the club’s alone, and is taken away when the sign-up is refused "
                "or withdrawn before it is entered. A parent’s or guardian’s name stays with the consent until it is erased. An "
                "e-mail that was sent is not kept."
            ),
            gettext(
                "Youth: a person under 18 is entered only with the consent of a parent or guardian, who may ask at any time what "
                "is kept and have the name erased. Give a youth team a name that names no child."
            ),
            gettext(
                "Officials: a user name, a name, a password kept in a form that cannot be read back, and when they signed in. Slips, notes "
                "and the history keep the user name of who wrote them, so that a result can be proven after a protest."
            ),
            gettext(
                "Readers: nothing is counted or followed, and no other site is asked for anything. Whoever only reads gets no "
                "cookie, but one that keeps the language when another is chosen."
            ),
            gettext(
                "Your rights: ask a director of the club, in writing or at the weigh-in, for a file of what is kept about you, to "
                "have it corrected, or to have it erased. It costs nothing."
            ),
            gettext(
                "What stays when a name is erased: slips, results, money and how many fished in a boat, since others' places hang on "
                "them."
            ),
        )
    )
