"""What can be wrong with a blank of the planner."""

from weighin.rules.faults import Sentence, gettext_noop

NOT_A_FIGURE_HERE = Sentence(
    "not_a_figure_here", gettext_noop("“%(written)s” is not a figure: write it with digits and a point, such as 7.5.")
)
NO_UNIT = Sentence(
    "no_unit", gettext_noop("“%(figure)s” has no unit: write %(figure)s %(unit)s or %(figure)s %(other)s.")
)
UNIT_UNKNOWN = Sentence("unit_unknown", gettext_noop("“%(spelling)s” is not a unit known here: write %(choice)s."))
NOT_WHOLE = Sentence("blank_not_whole", gettext_noop("Write a whole number, such as 7."))
OUT_OF_BOUNDS = Sentence("blank_out_of_bounds", gettext_noop("It must be from %(low)s to %(high)s, not %(figure)s."))
OUT_OF_OPEN_BOUNDS = Sentence(
    "blank_out_of_open_bounds", gettext_noop("It must be more than %(low)s and at most %(high)s, not %(figure)s.")
)
IN_ANOTHER_UNIT = Sentence(
    "blank_in_another_unit", gettext_noop("%(wrong)s If it was read in %(unit)s, write %(written)s.")
)
