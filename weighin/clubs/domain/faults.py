"""What is wrong with clubs, members, seasons and waters."""

from weighin.rules.faults import Sentence, gettext_noop

PASSWORD_OF_OTHER_CLUB_TOO = Sentence(
    "password_of_other_club_too", gettext_noop("only %(person)s can change this password: it opens another club too")
)
NO_SUCH_ROLE = Sentence("no_such_role", gettext_noop("choose one of %(roles)s"))
MEMBER_GONE = Sentence("member_gone", gettext_noop("%(person)s was removed from the club meanwhile"))
LAST_DIRECTOR = Sentence(
    "last_director",
    gettext_noop("the club needs a director, and %(person)s is the only one: give another member that role first"),
)
MEMBER_ALREADY = Sentence(
    "member_already", gettext_noop("the person %(username)s is a member of %(club)s already: change the role instead")
)
INVITED_ALREADY = Sentence(
    "invited_already",
    gettext_noop("the person %(username)s is asked already: the yes to %(club)s is given on their own first page"),
)
INVITATION_OVER = Sentence(
    "invitation_over",
    gettext_noop("this invitation was used, withdrawn, or is over a week old: ask a director of the club for another"),
)
CLUB_TAKEN_ASK = Sentence(
    "club_taken_ask", gettext_noop("there is a club %(name)s already: write another name, or ask its director")
)
CLUB_LOOKS_LIKE = Sentence(
    "club_looks_like", gettext_noop("this looks like the club %(name)s: write a name that cannot be mixed up with it")
)
WATER_TAKEN = Sentence("water_taken", gettext_noop("%(club)s has a water %(name)s already: write another name"))
ELEVATION_OUTSIDE = Sentence(
    "elevation_outside", gettext_noop("%(elevation)s ft is outside %(least)s to %(most)s: check the figure")
)
NOT_THE_WORD = Sentence("not_the_word", gettext_noop("this is not the word: check where the server was started"))
DIRECTOR_THERE_ALREADY = Sentence(
    "director_there_already",
    gettext_noop("this site has its first director already: sign in, or ask that person for a user name"),
)
CLUB_TAKEN = Sentence("club_taken", gettext_noop("there is a club %(name)s already: write another name"))
SEASON_TAKEN = Sentence("season_taken", gettext_noop("%(club)s has a season %(name)s already: write another name"))
CLUB_WITHOUT_NAME = Sentence("club_without_name", gettext_noop("this is blank: write the club’s name"))
SEASON_WITHOUT_NAME = Sentence(
    "season_without_name", gettext_noop("this is blank: write the season’s name, such as its year")
)
WATER_WITHOUT_NAME = Sentence("water_without_name", gettext_noop("this is blank: write the lake’s name"))
CURRENCY_MISSING = Sentence(
    "currency_missing", gettext_noop("this is blank: write the currency sign of the club, such as $")
)
