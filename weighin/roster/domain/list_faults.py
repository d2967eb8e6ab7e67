"""What can be wrong with a list of teams, and why rows of it are skipped."""

from weighin.rules.faults import Sentence, gettext_noop

NO_ANGLER = Sentence("list_no_angler", gettext_noop("no angler is named in this row: write at least one"))
BOAT_IN_ROW = Sentence(
    "list_boat_in_row", gettext_noop("boat %(boat)s stands in row %(row)s already: give this team another number")
)
BOAT_ENTERED = Sentence(
    "list_boat_entered", gettext_noop("boat %(boat)s is %(team)s already: give this team another number")
)
NOT_A_BOAT = Sentence(
    "list_not_a_boat", gettext_noop("'%(text)s' is no boat number: write a whole number from 1 on, or leave it blank")
)
TEAM_IN_ROW = Sentence(
    "list_team_in_row",
    gettext_noop("the team %(team)s stands in row %(row)s already: remove one of them, or rename it"),
)
TEAM_ENTERED = Sentence(
    "list_team_entered", gettext_noop("the team %(team)s is entered already: remove this row, or rename the team")
)
TEAM_LIKE_SEASONS = Sentence(
    "list_team_like_seasons",
    gettext_noop(
        "%(name)s looks like the season’s team %(team)s, but has other letters: write that team the same way, or this one so that nobody mixes them up"
    ),
)
ANGLER_IN_ROW = Sentence(
    "list_angler_in_row", gettext_noop("%(name)s fishes in row %(row)s already: an angler fishes in one team")
)
ANGLER_ENTERED = Sentence(
    "list_angler_entered", gettext_noop("%(name)s fishes in %(team)s already: an angler fishes in one team")
)
ANGLER_TWICE_IN_ROW = Sentence(
    "list_angler_twice", gettext_noop("%(name)s stands twice in this row: write each angler once")
)
TOO_MANY_IN_TEAM = Sentence("list_too_many", gettext_noop("this row has %(n)s anglers: a team has %(most)s at most"))
NO_FLIGHT = Sentence("list_no_flight", gettext_noop("there is no flight '%(text)s': choose one of %(choices)s"))
NO_FLIGHTS = Sentence("list_no_flights", gettext_noop("there is no flight '%(text)s': this event has no flights yet"))
NO_STATUS = Sentence("list_no_status", gettext_noop("'%(text)s' is no status: choose one of %(choices)s"))
NOT_YOUTH = Sentence(
    "list_not_youth", gettext_noop("'%(text)s' is neither yes nor no: write yes or no, or leave it blank")
)
OTHER_AMOUNT = Sentence(
    "list_other_amount", gettext_noop("%(amount)s is not the fee of %(fee)s: write yes, no or the fee")
)
DECIMAL_COMMA = Sentence(
    "list_decimal_comma", gettext_noop("'%(text)s' has a comma where no thousands end: write a decimal point")
)
NOT_PAID_OR_NOT = Sentence(
    "list_not_paid_or_not",
    gettext_noop("'%(text)s' does not show whether it is paid: write yes, no or the fee of %(fee)s"),
)
NO_AT_SIGN = Sentence("list_no_at_sign", gettext_noop("'%(text)s' is no e-mail address: there is no @ in it"))
TWO_COLUMNS = Sentence(
    "list_two_columns",
    gettext_noop("'%(second)s' means the same as '%(first)s': remove one of the two columns, or skip it here"),
)
MERGED_ROWS = Sentence(
    "list_merged_rows",
    gettext_noop("cells are merged over rows %(first)s to %(last)s: split them and write each row in full"),
)
NO_HEADINGS = Sentence(
    "list_no_headings",
    gettext_noop(
        "no row of headings was found: write headings such as Boat, Team and Angler 1 above the teams, or choose what each column holds"
    ),
)
HEADING_NOT_THERE = Sentence(
    "list_heading_not_there", gettext_noop("no column is headed '%(heading)s': check its name")
)
TOO_MANY_LINES = Sentence(
    "list_too_many_lines", gettext_noop("there are %(n)s teams in this list: import at most %(most)s at once")
)
TOO_MANY_RECORDS = Sentence(
    "list_too_many_records", gettext_noop("the file has more than %(most)s lines: save the list of teams alone")
)
TOO_LARGE_A_FILE = Sentence(
    "list_too_large", gettext_noop("the file is larger than 5 MB: save the list of teams alone")
)
NOT_A_TEXT = Sentence(
    "list_not_a_text", gettext_noop("this is no list that can be read: save it as .xlsx or as CSV in UTF-8")
)
OLD_SPREADSHEET = Sentence(
    "list_old_spreadsheet", gettext_noop("this is a spreadsheet of another kind: save it as .xlsx or as CSV")
)
QUOTE_NOT_CLOSED = Sentence(
    "list_quote_not_closed",
    gettext_noop("a quotation mark is opened in row %(row)s and never closed: close it or remove it"),
)
NO_SUCH_SHEET = Sentence("list_no_such_sheet", gettext_noop("there is no sheet '%(sheet)s': choose one of %(choices)s"))

SKIPPED_ABOVE = Sentence("list_skipped_above", gettext_noop("stands above the headings"))
SKIPPED_EMPTY = Sentence("list_skipped_empty", gettext_noop("is empty"))
SKIPPED_HEADINGS = Sentence("list_skipped_headings", gettext_noop("has the headings again"))
SKIPPED_TOTAL = Sentence("list_skipped_total", gettext_noop("is a sum: a cell of it reads '%(text)s'"))

TEAM_MADE = Sentence(
    "list_team_made", gettext_noop("this team is called %(team)s, by its anglers: names of teams stand on public pages")
)
TEAM_MADE_YOUTH = Sentence(
    "list_team_made_youth",
    gettext_noop(
        "this is a youth team, and %(team)s names its anglers on public pages: write another name if that is not wanted"
    ),
)
NO_HEADING = Sentence(
    "list_no_heading", gettext_noop("column %(column)s has no heading: its %(n)s filled cells are left out")
)
