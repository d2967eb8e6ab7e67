"""What pages count, in the reader's language: the forms that each noun has beside a number."""

from django.utils.translation import gettext, ngettext, pgettext

from weighin.rules.faults import gettext_noop, ngettext_noop

STATION = "station "  # begins the recorder of whatever a tablet sent, in rows, history and messages

NOUNS = {
    "angler": ngettext_noop("%(n)s angler", "%(n)s anglers"),
    "bag": ngettext_noop("%(n)s bag", "%(n)s bags"),
    "boat": ngettext_noop("%(n)s boat", "%(n)s boats"),
    "boat-day": ngettext_noop("%(n)s boat-day", "%(n)s boat-days"),
    "boat’s": ngettext_noop("%(n)s boat’s", "%(n)s boats’"),
    "club": ngettext_noop("%(n)s club", "%(n)s clubs"),
    "cooler event": ngettext_noop("%(n)s cooler event", "%(n)s cooler events"),
    "day": ngettext_noop("%(n)s day", "%(n)s days"),
    "dead fish": ngettext_noop("%(n)s dead fish", "%(n)s dead fish"),
    "entry": ngettext_noop("%(n)s entry", "%(n)s entries"),
    "event": ngettext_noop("%(n)s event", "%(n)s events"),
    "fault": ngettext_noop("%(n)s fault", "%(n)s faults"),
    "fish": ngettext_noop("%(n)s fish", "%(n)s fish"),
    "flight": ngettext_noop("%(n)s flight", "%(n)s flights"),
    "holding pen": ngettext_noop("%(n)s holding pen", "%(n)s holding pens"),
    "line of history": ngettext_noop("%(n)s line of history", "%(n)s lines of history"),
    "livewell": ngettext_noop("%(n)s livewell", "%(n)s livewells"),
    "minute": ngettext_noop("%(n)s minute", "%(n)s minutes"),
    "note": ngettext_noop("%(n)s note", "%(n)s notes"),
    "official result": ngettext_noop("%(n)s official result", "%(n)s official results"),
    "paid entry": ngettext_noop("%(n)s paid entry", "%(n)s paid entries"),
    "pen": ngettext_noop("%(n)s pen", "%(n)s pens"),
    "place": ngettext_noop("%(n)s place", "%(n)s places"),
    "reading": ngettext_noop("%(n)s reading", "%(n)s readings"),
    "release": ngettext_noop("%(n)s release", "%(n)s releases"),
    "rule": ngettext_noop("%(n)s rule", "%(n)s rules"),
    "scale": ngettext_noop("%(n)s scale", "%(n)s scales"),
    "season": ngettext_noop("%(n)s season", "%(n)s seasons"),
    "slip": ngettext_noop("%(n)s slip", "%(n)s slips"),
    "tank": ngettext_noop("%(n)s tank", "%(n)s tanks"),
    "tank reading": ngettext_noop("%(n)s tank reading", "%(n)s tank readings"),
    "team": ngettext_noop("%(n)s team", "%(n)s teams"),
    "walk": ngettext_noop("%(n)s walk", "%(n)s walks"),
    "lake": ngettext_noop("%(n)s lake", "%(n)s lakes"),
    "weighed boat": ngettext_noop("%(n)s weighed boat", "%(n)s weighed boats"),
    "weighed boat-day": ngettext_noop("%(n)s weighed boat-day", "%(n)s weighed boat-days"),
    "winner": ngettext_noop("%(n)s winner", "%(n)s winners"),
}
NUMBERS = (
    gettext_noop("one"),
    gettext_noop("two"),
    gettext_noop("three"),
    gettext_noop("four"),
    gettext_noop("five"),
    gettext_noop("six"),
    gettext_noop("seven"),
    gettext_noop("eight"),
    gettext_noop("nine"),
    gettext_noop("ten"),
    gettext_noop("eleven"),
    gettext_noop("twelve"),
)


def in_words(count: int) -> str:
    """Numbers to twelve in words, larger ones in figures."""
    if count == 0:
        return pgettext("a number", "no")
    return gettext(NUMBERS[count - 1]) if 1 <= count <= len(NUMBERS) else f"{count:,}"


def counted(count: int, noun: str, number: str = "") -> str:
    """``1 boat``, ``24 boats``; ``number`` stands in place of the figures. Raises KeyError for a noun not kept here."""
    return ngettext(*NOUNS[noun], count) % {"n": number or f"{count:,}"}


def recorder(by: str) -> str:
    """Who wrote a row, in words: a tablet's rows are kept as of ``station Table 1``.

    >>> recorder("station Table 1"), recorder("R. Quill")
    ('tablet Table 1', 'R. Quill')
    """
    return gettext("tablet %(name)s") % {"name": by.removeprefix(STATION)} if by.startswith(STATION) else by
