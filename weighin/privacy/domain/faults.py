"""What is wrong with what is asked about names."""

from weighin.rules.faults import Sentence, gettext_noop

ODD_SEASONS = Sentence(
    "odd_seasons",
    gettext_noop("write a whole number of seasons from 1 to %(most)s, or leave it blank to keep the names"),
)
NOTICE_TOO_LONG = Sentence("notice_too_long", gettext_noop("this is longer than %(most)s characters: shorten it"))
NAME_BLANK = Sentence("name_blank", gettext_noop("this is blank: write the angler’s name as it is on the team’s line"))
NAME_NOT_KEPT = Sentence(
    "name_not_kept",
    gettext_noop(
        "no team of this club has an angler %(name)s: write first and last name as they are on the team’s line"
    ),
)
NOTHING_TO_ERASE = Sentence(
    "nothing_to_erase", gettext_noop("no name is older than %(seasons)s seasons: there is nothing to erase yet")
)
NO_LIMIT_SET = Sentence(
    "no_limit_set", gettext_noop("%(club)s has set no limit: decide first how many seasons names are kept")
)
USER_NAME_NOT_TYPED = Sentence(
    "user_name_not_typed", gettext_noop("write the user name %(username)s here, so that nobody is erased by mistake")
)
LAST_DIRECTOR_STAYS = Sentence(
    "last_director_stays",
    gettext_noop("%(person)s is the only director of %(club)s: give another member that role first"),
)
MEMBER_ELSEWHERE = Sentence(
    "member_elsewhere",
    gettext_noop(
        "%(person)s is a member of another club too: remove them from this club; they can erase the account themselves"
    ),
)
