"""What people type, turned into what the readers read: ``3pm``, ``Jun 20, 2026``, ``15 min``, ``80%``, ``$120``, ``76``.

Forms alone use this; a workbook and a station's message keep to their contract. What is not understood goes on as it
was typed, so that the reader names the fault.
"""

import re
from calendar import month_abbr, month_name
from datetime import datetime

from django.utils.dates import MONTHS, MONTHS_3

from weighin.rules.faults import Sentence, gettext_noop

AMOUNT_WITH_SIGN = Sentence(
    "amount_with_sign", gettext_noop("%(written)s has a sign: write an amount of 0 or more, without a sign")
)
AMOUNT_NEGATIVE = Sentence(
    "amount_negative", gettext_noop("%(written)s is negative: write an amount of 0 or more, without a sign")
)
_CLOCK = re.compile(
    r"(?P<hour>[0-9]{1,2})(?:[:.]?(?P<minute>[0-9]{2}))?(?:[:.](?P<second>[0-9]{2}))?\s*(?P<half>[ap])?\.?\s?(?:m\.?)?\Z",
    re.IGNORECASE,
)
_SENT_CLOCK = re.compile(r"[0-9]{2}:[0-9]{2}(?::[0-9]{2})?")
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_WEEKDAY = re.compile(r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+", re.IGNORECASE)
_ENDING = re.compile(r"(?<=\d)(?:st|nd|rd|th)\b", re.IGNORECASE)
_DAYS = ("%Y-%m-%d", "%m/%d/%Y", "%m/%d/%y", "%m-%d-%Y", "%b %d %Y", "%d %b %Y")
_HOURS = re.compile(r"(?:(?P<hours>[0-9]{1,6})\s*(?:h|hr|hrs|hour|hours)\b\.?)?\s*(?:(?P<minutes>[0-9.]{1,9})\s*(?:m|min|mins|minute|minutes)\b\.?)?\Z", re.IGNORECASE)  # fmt: skip
_PERCENT = re.compile(r"(?P<figure>[0-9.]+)\s*(?:%|percent|per cent|pct)\Z", re.IGNORECASE)
_MONEY = re.compile(r"(?:[$€£]|usd|us\$)?\s*(?P<figure>[0-9][0-9,]*(?:\.[0-9]*)?|\.[0-9]+)\s*(?:[$€£]|usd|dollars?)?\Z", re.IGNORECASE)  # fmt: skip
_SIGN = re.compile(r"[$€£]?\s*[+\-\u2212]|\(.*\)\Z")
_BARE = re.compile(r"[+\-\u2212]?[0-9]+(?:\.[0-9]+)?\s*(?:°|degrees|deg)?\Z", re.IGNORECASE)
_DEGREES = re.compile(r"(?P<figure>-?[0-9.]+)\s*(?:°|degrees?|deg)?\s*(?P<unit>f|c|fahrenheit|celsius)\.?\Z", re.IGNORECASE)  # fmt: skip
LOT = {"coin flip", "coin toss", "flip a coin", "flip of a coin", "drawn lot", "by lot", "draw", "drawing lots"}


def clock(text: str) -> str:
    """A time of day as ``HH:MM`` or ``HH:MM:SS``.

    >>> clock("3pm"), clock("7:49 pm"), clock("12:05 a.m."), clock("3:05 p. m."), clock("1500"), clock("noon")
    ('15:00', '19:49', '00:05', '15:05', '15:00', '12:00')
    >>> clock("3"), clock("soon")
    ('3', 'soon')
    """
    written = " ".join(text.split())
    written = {"noon": "12 pm", "midnight": "12 am"}.get(written.casefold(), written)
    found = _CLOCK.match(written)
    if found is None or (found["minute"] is None and found["half"] is None):
        return text
    hour, half = int(found["hour"]), (found["half"] or "").lower()
    if half:
        if not 1 <= hour <= 12:
            return text
        hour = hour % 12 + (12 if half == "p" else 0)
    return f"{hour:02}:{found['minute'] or '00'}" + (f":{found['second']}" if found["second"] else "")


def day(text: str) -> str:
    """A date as ``YYYY-MM-DD``: in figures the month first, as in the United States; months in the reader's language too.

    >>> day("6/20/2026"), day("Sat, Jun 20, 2026"), day("June 20th 2026"), day("20 Jun 2026"), day("2026-06-20")
    ('2026-06-20', '2026-06-20', '2026-06-20', '2026-06-20', '2026-06-20')
    >>> day("Saturday"), day("Jun 31, 2026")
    ('Saturday', 'Jun 31, 2026')
    """
    bare = re.sub(r"[,.]", " ", _ENDING.sub("", _WEEKDAY.sub("", " ".join(text.split()))))
    written = " ".join(_month(word) for word in bare.split() if word.casefold() != "de")
    for form in _DAYS:
        try:
            return f"{datetime.strptime(written, form):%Y-%m-%d}"
        except ValueError:
            continue
    return text


def moment(text: str) -> str:
    """A date and a time of day as ``YYYY-MM-DD HH:MM``; a date alone and a time alone as ``day`` and ``clock`` have them.

    >>> moment("Jun 20, 2026, 3:30 PM"), moment("6/20/26 3pm"), moment("2026-06-20 15:30"), moment("June 20, 2026")
    ('2026-06-20 15:30', '2026-06-20 15:00', '2026-06-20 15:30', '2026-06-20')
    >>> moment("3:30 PM"), moment("2026-06-20T15:30:10-05:00"), moment("soon")
    ('15:30', '2026-06-20T15:30:10-05:00', 'soon')
    """
    words = text.split()
    for parts in range(1, min(4, len(words))):
        at, on = clock(" ".join(words[-parts:])), day(" ".join(words[:-parts]))
        if _SENT_CLOCK.fullmatch(at) and _ISO_DAY.fullmatch(on):
            return f"{on} {at}"
    on = day(text)
    return on if _ISO_DAY.fullmatch(on) else clock(text)


def _month(word: str) -> str:
    """A month by its English short name; any other word as it is."""
    said = word.casefold()
    for number in range(1, 13) if len(said) > 2 else ():
        names = (month_name[number], str(MONTHS[number]), str(MONTHS_3[number]))
        if any(name.casefold().startswith(said) for name in names):
            return month_abbr[number]
    return word


def minutes(text: str) -> str:
    """A span in minutes, without the word.

    >>> minutes("15 min"), minutes("1 h 5 min"), minutes("2 hours"), minutes("15")
    ('15', '65', '120', '15')
    """
    found = _HOURS.match(text.strip())
    if found is None or not text.strip() or (found["hours"] is None and found["minutes"] is None):
        return text
    if found["hours"] is None:
        return found["minutes"]
    more = found["minutes"] or "0"
    return str(int(found["hours"]) * 60 + int(more)) if more.isdigit() else text


def percent(text: str) -> str:
    """A percentage without its sign.

    >>> percent("80%"), percent("80 percent"), percent("80")
    ('80', '80', '80')
    """
    found = _PERCENT.match(text.strip())
    return found["figure"] if found else text


def money(text: str) -> str:
    """An amount without its currency sign and the commas between thousands.

    Raises Wrong for one with a plus, a minus or brackets: what is owed or given back is written elsewhere.

    >>> money("$120"), money("1,354.00"), money("60 dollars")
    ('120', '1354.00', '60')
    """
    written = text.strip()
    if _SIGN.match(written):
        raise (AMOUNT_WITH_SIGN if "+" in written else AMOUNT_NEGATIVE).wrong(written=written[:40])
    found = _MONEY.match(written)
    if found is None or not re.fullmatch(r"[0-9]*(?:,[0-9]{3})*(?:\.[0-9]*)?", found["figure"]):
        return text
    return found["figure"].replace(",", "")


def degrees(text: str, unit: str) -> str:
    """A temperature with its unit; a bare one is in ``unit``, ``F`` or ``C``.

    >>> degrees("76", "F"), degrees("76 degrees", "F"), degrees("24.5 celsius", "F"), degrees("warm", "F")
    ('76 F', '76 F', '24.5 C', 'warm')
    """
    written = text.strip()
    if _BARE.match(written):
        return f"{re.sub(r'[^0-9.+-]', '', written)} {unit}"
    found = _DEGREES.match(written)
    return f"{found['figure']} {found['unit'][0].upper()}" if found else text


def ties(text: str) -> str:
    """A list of tie-breakers, a coin flip or a draw by the rule sheet's name for it.

    >>> ties("big fish, coin flip")
    'big fish, lot'
    """
    parts = [part.strip() for part in text.split(",")]
    if not any(part.casefold() in LOT for part in parts):
        return text
    return ", ".join("lot" if part.casefold() in LOT else part for part in parts)


def without_unit(text: str, unit: str) -> str:
    """A figure without the unit that stands after its line.

    >>> without_unit("12 gal", "gal"), without_unit("9.47 lb", "lb"), without_unit("9-07 lb", "mg/L")
    ('12', '9.47', '9-07 lb')
    """
    found = re.fullmatch(rf"([0-9.]+)\s*{re.escape(unit)}s?\.?", text.strip(), re.IGNORECASE) if unit else None
    return found[1] if found else text
