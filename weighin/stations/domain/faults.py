"""What is wrong with a station, or with what was copied from a tablet."""

from weighin.rules.faults import Sentence, gettext_noop

STATION_WITHOUT_NAME = Sentence(
    "station_without_name", gettext_noop("the tablet has no name: write one, such as Table 1")
)
NOTHING_IT_CAN = Sentence(
    "nothing_it_can",
    gettext_noop("'%(can)s' is nothing a tablet can do: name %(cans)s, or some of them, separated by commas"),
)
CAN_DO_NOTHING = Sentence(
    "can_do_nothing", gettext_noop("this tablet could do nothing: name %(cans)s, or some of them, separated by commas")
)
NO_SUCH_STATION = Sentence(
    "no_such_station", gettext_noop("%(event)s has no tablet %(station)s: its tablets are %(stations)s")
)
NO_STATIONS = Sentence("no_stations", gettext_noop("none"))
NOTHING_COPIED = Sentence(
    "nothing_copied", gettext_noop("there is nothing here yet: copy the text that the tablet shows")
)
NOT_FROM_A_TABLET = Sentence("not_from_a_tablet", gettext_noop("this is not what a tablet shows: %(why)s"))
PART_NOT_WHOLE = Sentence(
    "part_not_whole", gettext_noop("the part '%(part)s' is not whole: copy it again, its last sign is |")
)
SLIP_PARTS_MISSING = Sentence(
    "slip_parts_missing", gettext_noop("of the slip %(slip)s part %(missing)s of %(all)s is missing: copy that too")
)
NOT_A_SLIP_FIRST = Sentence(
    "not_a_slip_first", gettext_noop("this does not begin with a slip: '%(part)s'. Copy it again")
)
