"""Forms of the pads' page."""

from weighin.records.forms.written import WrittenForm, choice, count, line


class PadForm(WrittenForm):
    """A pad that is handed out."""

    name = line("Pad", maxlength="40", help_text="Its colour or mark, such as Blue.")
    first = count("First number")
    last = count("Last number")
    handed_to = line("Handed to", maxlength="120")


class UnusedForm(WrittenForm):
    """Numbers that no slip comes from."""

    first = count("Number")
    last = count("to", help_text="Blank for one number.")
    became = choice("It", [("spoiled", "was spoiled"), ("blank", "came back blank")])
    reason = line("Why", maxlength="500")


class TakeBackForm(WrittenForm):
    """What was said of a number is taken back."""

    number = count("Number")
    reason = line("Why it is taken back", maxlength="500")
