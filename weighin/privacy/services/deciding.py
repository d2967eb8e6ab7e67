"""Write down what a club has decided about names, and what it says of them."""

from django.utils.translation import gettext, ngettext

from weighin.audit.services import log_history, writing
from weighin.clubs.models import Club
from weighin.privacy.domain.faults import NOTICE_TOO_LONG, ODD_SEASONS
from weighin.privacy.models import LONGEST_NOTICE, ClubPrivacy
from weighin.rules.faults import Faults

MOST_SEASONS = 50


def keep_names(club: Club, seasons: int | None, by: str) -> None:
    """Keep anglers' names for so many seasons (1 to 50), or until they are erased. Raises Faults for ``seasons``."""
    if seasons is not None and not 1 <= seasons <= MOST_SEASONS:
        raise Faults([ODD_SEASONS.at("seasons", most=MOST_SEASONS)])
    with writing():
        ClubPrivacy.objects.update_or_create(club=club, defaults={"keep_seasons": seasons, "decided": True})
        sentence = (
            gettext("Anglers' names are kept until they are erased")
            if seasons is None
            else ngettext(
                "Anglers' names are kept %(n)s season", "Anglers' names are kept %(n)s seasons", seasons
            )
            % {"n": seasons}
        )  # fmt: skip
        log_history(by, "names.kept", sentence, club_id=club.pk, details={"seasons": seasons})


def write_notice(club: Club, text: str, by: str) -> None:
    """Keep the club's own privacy notice; blank brings the site's back. Raises Faults for ``notice``."""
    said = text.replace("\r\n", "\n").strip()
    if len(said) > LONGEST_NOTICE:
        raise Faults([NOTICE_TOO_LONG.at("notice", most=LONGEST_NOTICE)])
    with writing():
        ClubPrivacy.objects.update_or_create(club=club, defaults={"notice": said})
        sentence = gettext("Privacy notice written") if said else gettext("Privacy notice is the site’s again")
        log_history(by, "notice.written", sentence, club_id=club.pk, details={"characters": len(said)})
