"""What can be wrong with an event workbook: its file, its cells, its rows, and where it is brought in."""

from weighin.rules.faults import Sentence, gettext_noop

BOOK_TOO_LARGE = Sentence(
    "book_too_large", gettext_noop("%(name)s is larger than 10 MB: remove pictures and other sheets")
)
BOOK_NOT_FOUND = Sentence(
    "book_not_found", gettext_noop("%(name)s cannot be found or read: check the file’s name and place")
)
BOOK_NOT_READABLE = Sentence(
    "book_not_readable", gettext_noop("%(name)s cannot be read: check that it is a file you may open")
)
BOOK_BROKEN = Sentence(
    "book_broken",
    gettext_noop("%(name)s is broken or no workbook: open it in a spreadsheet, save it as .xlsx, try again"),
)
UNPACKS_TO_TOO_MUCH = Sentence(
    "unpacks_to_too_much",
    gettext_noop("%(name)s unpacks to far more than a workbook should: save only the event’s sheets and try again"),
)
SHEET_TWICE = Sentence("sheet_twice", gettext_noop("%(name)s has two sheets named %(title)s: keep one of them"))
TOO_MANY_ROWS = Sentence(
    "too_many_rows",
    gettext_noop("%(name)s has more than %(most)s rows: split it, or remove what is not the event’s"),
)
TOO_MANY_SHEETS = Sentence(
    "too_many_sheets", gettext_noop("%(name)s has more than %(most)s sheets: keep only the event’s")
)
TOO_MANY_CELLS = Sentence(
    "too_many_cells",
    gettext_noop("%(name)s has far more cells than an event needs: remove what is not the event’s and save it again"),
)
BOOK_TEXT_TOO_LONG = Sentence(
    "book_text_too_long",
    gettext_noop("%(name)s has a text on %(title)s, row %(row)s, that no cell can hold: shorten it and save it again"),
)
BOOK_HAS_MACROS = Sentence(
    "book_has_macros", gettext_noop("%(name)s has macros: save it as .xlsx without macros and try again")
)
UNPACKS_TO_MORE_THAN_SAID = Sentence(
    "unpacks_to_more_than_said",
    gettext_noop("%(name)s unpacks to far more than it says: save it again in a spreadsheet"),
)
BOOK_HAS_ENTITIES = Sentence(
    "book_has_entities",
    gettext_noop("%(name)s carries XML entities, which no event workbook needs: save it again in a spreadsheet"),
)
TOO_MANY_EMPTY_ROWS = Sentence(
    "too_many_empty_rows", gettext_noop("%(name)s has too many empty rows on %(title)s: delete them and save again")
)
TURNED_INTO_A_DATE = Sentence(
    "turned_into_a_date", gettext_noop("Excel turned this into a date: format the column as text and write it again")
)
DATE_WITHOUT_TIME = Sentence(
    "cell_date_without_time", gettext_noop("%(date)s is a date without a time: write HH:MM, such as 14:42")
)
FORMULA_WITHOUT_VALUE = Sentence(
    "formula_without_value",
    gettext_noop(
        "this formula has no value kept with it: open the workbook in a spreadsheet, save it, or write the value"
    ),
)
SPREADSHEET_ERROR = Sentence(
    "spreadsheet_error", gettext_noop("the spreadsheet shows %(value)s here: correct the formula or write the value")
)
NOT_A_TIME_OF_DAY = Sentence(
    "cell_not_a_time_of_day", gettext_noop("this is not a time of day: write HH:MM between 00:00 and 23:59")
)
ROUNDS_TO_MIDNIGHT = Sentence(
    "rounds_to_midnight", gettext_noop("this time rounds to 24:00: write it as text, such as 23:59:59")
)
DATE_WITH_TIME = Sentence(
    "date_with_time", gettext_noop("%(value)s has a time in it: write the date only, such as 2026-06-20")
)
NOT_A_TIME_IN_WORKBOOK = Sentence(
    "not_a_time_in_workbook", gettext_noop("'%(text)s' is not a time: write HH:MM or HH:MM:SS, such as 14:42")
)
NO_TEAMS_SHEET = Sentence(
    "no_teams_sheet",
    gettext_noop("there is no Teams sheet: add one with a row for every team, with boat, team and angler_1"),
)
TEAM_READS_ALIKE = Sentence(
    "team_reads_alike", gettext_noop("%(name)s reads like the team at %(place)s: give one of them another name")
)
NO_FLIGHTS_ON_SHEET = Sentence("no_flights_on_sheet", gettext_noop("none is set up"))
FLIGHT_NOT_ON_SHEET = Sentence(
    "flight_not_on_sheet",
    gettext_noop("there is no flight '%(text)s' on the Flights sheet (%(listed)s): correct it or add the flight"),
)
BOAT_TWICE = Sentence(
    "boat_twice", gettext_noop("boat %(boat)s stands twice (see also %(place)s): give one of them another number")
)
ANGLER_AT_TWO_PLACES = Sentence(
    "angler_at_two_places", gettext_noop("%(name)s already stands at %(place)s: an angler fishes in one team")
)
NO_EVENT_SHEET = Sentence("no_event_sheet", gettext_noop("the sheet Event is missing: add it with its keys and values"))
DAY_BEFORE_EVENT = Sentence(
    "day_before_event",
    gettext_noop("day %(number)s is on %(date)s, but the event begins on %(begins)s: correct one of the two dates"),
)
CELL_MISSING = Sentence("cell_missing", gettext_noop("%(name)s is missing: write it"))
NO_SUCH_DAY_IN_WORKBOOK = Sentence(
    "no_such_day_in_workbook", gettext_noop("there is no day %(number)s in this event: its days are 1 to %(days)s")
)
FLIGHT_TWICE = Sentence(
    "flight_twice", gettext_noop("flight %(name)s stands twice for the same day (see also %(place)s): keep one row")
)
NOT_A_ZONE_NAME = Sentence(
    "not_a_zone_name", gettext_noop("'%(text)s' is not a time zone: write a name such as America/Chicago")
)
KEY_MISSING = Sentence("key_missing", gettext_noop("the key %(name)s is missing: add a row for it"))
DAY_TWICE = Sentence("day_twice", gettext_noop("day %(number)s stands twice (see also %(place)s): keep one row"))
WORKBOOK_OF_ANOTHER_CLUB = Sentence(
    "workbook_of_another_club",
    gettext_noop("the workbook is of %(club)s, but you are in %(here)s: open that club, or correct the workbook"),
)
EVENT_HAS_SLIPS = Sentence(
    "event_has_slips",
    gettext_noop(
        "%(name)s is here already and has slips, or other things from its day: slips are never replaced, correct them one by one"
    ),
)
EVENT_HAS_DRAW = Sentence(
    "event_has_draw",
    gettext_noop(
        "%(name)s is here already and draw %(number)s stands (%(purpose)s): a workbook would take away what it gave, so void the draw first"
    ),
)
EVENT_IS_HERE = Sentence(
    "event_is_here", gettext_noop("%(name)s is here already: use --replace to import it again before its first slip")
)
OTHER_SPECIES_IN_PENS = Sentence(
    "other_species_in_pens",
    gettext_noop("the tournament’s pens hold another species than %(species)s: compare like with like, or correct it"),
)
SHEET_UNKNOWN = Sentence(
    "sheet_unknown", gettext_noop("%(title)s!A1: the sheet '%(title)s' is not known and was left out")
)
SECOND_CARE_NOTE = Sentence(
    "second_care_note",
    gettext_noop("boat %(boat)s already has a note on day %(day)s (see also %(place)s): keep one row"),
)
NO_COLUMNS = Sentence("no_columns", gettext_noop("row 1 must name the columns: %(columns)s, ..."))
NO_KEY_HEADER = Sentence("no_key_header", gettext_noop("row 1 must be the header: key in A1, value in B1"))
COLUMN_MISSING = Sentence("column_missing", gettext_noop("the column %(name)s is missing: add it to the header row"))
KEY_UNKNOWN = Sentence("key_unknown", gettext_noop("%(place)s: the key '%(value)s' is not known and was left out"))
COLUMN_UNKNOWN = Sentence(
    "column_unknown", gettext_noop("%(place)s: the column '%(value)s' is not known and was left out")
)
KEY_TWICE = Sentence("key_twice", gettext_noop("%(name)s stands twice (see also %(place)s): keep one of the two rows"))
COLUMN_TWICE = Sentence("column_twice", gettext_noop("the column %(name)s stands twice: keep one of the two"))
REPLACES_NO_SLIP = Sentence(
    "replaces_no_slip", gettext_noop("there is no slip %(replaces)s in this workbook: correct the number")
)
REPLACED_ALREADY = Sentence(
    "slip_row_replaced_already",
    gettext_noop("slip %(replaces)s is already replaced (see also %(place)s): replace the later slip instead"),
)
REPLACES_ANOTHER_BOATS = Sentence(
    "replaces_another_boats",
    gettext_noop("slip %(replaces)s is boat %(boat)s’s, not boat %(own)s’s: correct one of the two"),
)
REPLACES_IN_A_CIRCLE = Sentence(
    "replaces_in_a_circle",
    gettext_noop("slip %(number)s comes round to itself through what it replaces: correct the number"),
)
REPLACES_WITHOUT_REASON = Sentence(
    "replaces_without_reason", gettext_noop("a slip that replaces slip %(replaces)s needs a reason: write it")
)
SLIP_NUMBER_TWICE = Sentence(
    "slip_number_twice",
    gettext_noop("slip number %(number)s is used twice (see also %(place)s): give one of them another number"),
)
VOID_WITHOUT_SLIP = Sentence(
    "void_without_slip", gettext_noop("a void must name the slip that it voids: write its number under replaces")
)
SECOND_CURRENT_SLIP = Sentence(
    "second_current_slip",
    gettext_noop(
        "boat %(boat)s already has a current slip on day %(day)s (see also %(place)s): let one replace the other, with a reason"
    ),
)
SEE_ALSO = Sentence("see_also", gettext_noop("%(wrong)s (see also %(places)s)"))
BESIDE = Sentence("beside_a_cell", gettext_noop("%(place)s: %(said)s"))
NOT_A_WORKBOOK = Sentence(
    "not_a_workbook", gettext_noop("%(name)s is not an .xlsx workbook: save it as .xlsx and try again")
)
MACROS_BY_NAME = Sentence("macros_by_name", gettext_noop("%(name)s has macros: save it as .xlsx and try again"))
