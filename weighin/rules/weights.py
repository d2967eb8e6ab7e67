"""Weights as a scale shows them: read exactly, summed exactly, converted only for display.

``lb`` and ``lb-oz`` events count in pounds, ``kg`` events in kilograms.
1 oz = 1/16 lb and 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959;
NIST Handbook 44, appendix C).
"""

import re
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from weighin.rules.faults import Sentence, gettext_noop

WEIGHT_TOO_LARGE = Sentence(
    "weight_too_large", gettext_noop("%(shown)s is more than %(most)s %(unit)s: check the reading")
)
NOT_A_WEIGHT_UNIT = Sentence(
    "not_a_weight_unit", gettext_noop("'%(unit)s' is not a unit of weight: choose lb, lb-oz or kg")
)
WEIGHT_NOT_PLAIN = Sentence(
    "weight_not_plain", gettext_noop("'%(shown)s' is not a weight: write plain figures, such as %(example)s")
)
WEIGHT_NEGATIVE = Sentence("weight_negative", gettext_noop("%(shown)s is negative: a weight is 0 or more"))
WEIGHT_HAS_COMMA = Sentence(
    "weight_has_comma",
    gettext_noop("'%(shown)s' has a comma: write one weight with a decimal point, such as %(example)s"),
)
WEIGHT_TOO_LONG = Sentence(
    "weight_too_long",
    gettext_noop("'%(shown)s' is too long for a weight: write %(most)s signs or fewer, such as %(example)s"),
)
NOT_A_WEIGHT = Sentence("not_a_weight", gettext_noop("'%(shown)s' is not a weight: write it as %(example)s"))
WEIGHT_IN_OTHER_UNIT = Sentence(
    "weight_in_other_unit",
    gettext_noop("'%(shown)s' is in %(given)s: this event weighs in %(unit)s, such as %(example)s"),
)
WEIGHT_IN_KILOGRAMS = Sentence(
    "weight_in_kilograms", gettext_noop("'%(shown)s' is in kg: this event weighs in pounds and ounces, such as 9-07.5")
)
NO_POUNDS_AND_OUNCES = Sentence(
    "no_pounds_and_ounces",
    gettext_noop("'%(shown)s' does not say pounds and ounces: write it as 9-07.5 or 9 lb 7.5 oz"),
)
NOT_POUNDS_AND_OUNCES = Sentence(
    "not_pounds_and_ounces",
    gettext_noop("'%(shown)s' is not a weight in pounds and ounces: write it as 9-07.5 or 9 lb 7.5 oz"),
)
NO_OUNCES = Sentence(
    "no_ounces", gettext_noop("'%(shown)s' has no ounces after its pounds: write it as 9-07.5 or 9 lb 7.5 oz")
)
TOO_MANY_OUNCES = Sentence(
    "too_many_ounces", gettext_noop("'%(shown)s' has 16 ounces or more: carry them over into pounds")
)
WEIGHT_IN_POUNDS_AND_OUNCES = Sentence(
    "weight_in_pounds_and_ounces",
    gettext_noop("'%(shown)s' is in pounds and ounces: this event weighs in %(unit)s, such as %(example)s"),
)
ODD_FRACTION = Sentence(
    "odd_fraction",
    gettext_noop("'%(shown)s' has a fraction that is not halves, quarters, eighths or sixteenths: write decimals"),
)
DECIMALS_AND_FRACTION = Sentence(
    "decimals_and_fraction", gettext_noop("'%(shown)s' has both decimals and a fraction of an ounce: write one of them")
)

UNITS = ("lb", "lb-oz", "kg")
OUNCE = Decimal("0.0625")
KG_PER_LB = Decimal("0.45359237")
MOST = Decimal(999)
LONGEST = 40

_NUMBER = r"(?:[0-9]{1,12}(?:\.[0-9]{1,12})?|\.[0-9]{1,12})"
# A number of ounces ends before a fraction begins: 15/16 is never read as 1 and 5/16.
_OUNCES = rf"(?P<oz>{_NUMBER}(?![0-9./]))?\s*(?:(?P<over>[0-9]{{1,2}})/(?P<under>[0-9]{{1,2}}))?"
_PLAIN = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>lbs?|kg|oz)?\Z", re.IGNORECASE)
_DASHED = re.compile(rf"(?P<lb>[0-9]{{1,12}})\s*-\s*{_OUNCES}\Z")
_WORDED = re.compile(rf"(?:(?P<lb>[0-9]{{1,12}})\s*lbs?)?\s*(?:{_OUNCES}\s*(?P<mark>oz))?\Z", re.IGNORECASE)
_FRACTIONS = (2, 4, 8, 16)


def read(text: str, unit: str) -> Decimal:
    """The weight that ``text`` says, in pounds (``lb``, ``lb-oz``) or kilograms (``kg``).

    ``lb``: ``9.47`` or ``9.47 lb``. ``lb-oz``: ``9-07.5``, ``9-7 1/2``, ``9 lb 7.5 oz``, ``9 lb``, ``7 oz``
    and ``0``. ``kg``: ``4.295`` or ``4.295 kg``. 0 to 999, every digit kept.

    Raises Wrong with a sentence: a negative, a decimal comma, another unit, 16 oz or more,
    a bare number in a pound-and-ounce event, more than 999, more than 40 signs, or anything else.

    >>> read("9-07.5", "lb-oz")
    Decimal('9.46875')
    >>> read("4.295 kg", "kg")
    Decimal('4.295')
    """
    if unit not in UNITS:
        raise NOT_A_WEIGHT_UNIT.wrong(unit=unit)
    written = " ".join(text.split())
    shown = written if len(written) <= 30 else written[:27] + "..."
    if not written.isascii():
        raise WEIGHT_NOT_PLAIN.wrong(shown=shown, example=_example(unit))
    if written.startswith(("-", "\u2212")):
        raise WEIGHT_NEGATIVE.wrong(shown=shown)
    if "," in written:
        raise WEIGHT_HAS_COMMA.wrong(shown=shown, example=_example(unit))
    if len(text.strip()) > LONGEST:
        raise WEIGHT_TOO_LONG.wrong(shown=shown, most=LONGEST, example=_example(unit))
    weight = _read_lb_oz(written, shown) if unit == "lb-oz" else _read_plain(written, shown, unit)
    if weight > MOST:
        raise WEIGHT_TOO_LARGE.wrong(shown=shown, most=MOST, unit="kg" if unit == "kg" else "lb")
    return weight


def show(weight: Decimal, unit: str) -> str:
    """``weight`` as written in an event's unit, without the unit and without loss.

    Pounds get at least two decimals, kilograms three, ounces two figures: ``9.47``, ``4.295``, ``9-07.5``.

    >>> show(Decimal("9.46875"), "lb-oz"), show(Decimal("9.4"), "lb"), show(Decimal("-0.25"), "lb")
    ('9-07.5', '9.40', '-0.25')
    """
    if unit == "lb-oz":
        sign, pounds, ounces = _ounces(weight)
        head, _, tail = ounces.partition(".")
        return f"{sign}{pounds:f}-{head:0>2}" + (f".{tail}" if tail else "")
    sign, size = ("-", -weight) if weight < 0 else ("", weight)
    least = 3 if unit == "kg" else 2
    exponent = size.as_tuple().exponent
    decimals = max(least, -exponent if isinstance(exponent, int) else 0)
    figures = format(size, f".{decimals}f")
    while len(figures.partition(".")[2]) > least and figures.endswith("0"):
        figures = figures[:-1]
    return f"{sign}{figures}"


def _ounces(weight: Decimal) -> tuple[str, Decimal, str]:
    """Sign, whole pounds and the figures of the ounces beside them."""
    sign, size = ("-", -weight) if weight < 0 else ("", weight)
    pounds = size.to_integral_value(rounding=ROUND_FLOOR)
    return sign, pounds, format(((size - pounds) / OUNCE).normalize(), "f")


def spoken(weight: Decimal, unit: str) -> str:
    """``weight`` as a sentence says it, with its unit.

    >>> spoken(Decimal("10.875"), "lb-oz"), spoken(Decimal("-0.21875"), "lb-oz"), spoken(Decimal("9.4"), "lb")
    ('10 lb 14 oz', '-3.5 oz', '9.40 lb')
    """
    if unit != "lb-oz":
        return f"{show(weight, unit)} {unit}"
    sign, pounds, ounces = _ounces(weight)
    return f"{sign}{pounds:f} lb {ounces} oz" if pounds or not weight else f"{sign}{ounces} oz"


def word(unit: str) -> str:
    """The unit's word behind a figure: ``lb``, ``lb-oz`` or ``kg``."""
    return unit


def as_pounds(weight: Decimal, unit: str) -> Decimal:
    """An event's weight in pounds, unrounded (the quotient carries 28 digits for kilograms)."""
    return weight / KG_PER_LB if unit == "kg" else weight


def as_kilograms(weight: Decimal, unit: str) -> Decimal:
    """An event's weight in kilograms, exact for pounds."""
    return weight if unit == "kg" else weight * KG_PER_LB


def rounded(weight: Decimal, places: int = 2) -> Decimal:
    """The one rounding of a converted weight, for display and season biomass: half up."""
    return weight.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)


def whole_pounds(weight: Decimal, unit: str) -> int:
    """Whole pounds in a weight, rounded down, exact for kilograms; 0 for a negative weight."""
    if weight <= 0:
        return 0
    if unit == "kg":
        return int(weight // KG_PER_LB)
    return int(weight)


def _example(unit: str) -> str:
    return {"lb": "9.47", "lb-oz": "9-07.5", "kg": "4.295"}[unit]


def _read_plain(written: str, shown: str, unit: str) -> Decimal:
    found = _PLAIN.match(written)
    if found is None:
        if re.match(r"[0-9]+\s*-\s*[0-9]|.*\boz\b", written, re.IGNORECASE):
            raise WEIGHT_IN_POUNDS_AND_OUNCES.wrong(shown=shown, unit=unit, example=_example(unit))
        raise NOT_A_WEIGHT.wrong(shown=shown, example=_example(unit))
    given = (found["unit"] or unit).lower().removesuffix("s")
    if given != unit:
        raise WEIGHT_IN_OTHER_UNIT.wrong(shown=shown, given=given, unit=unit, example=_example(unit))
    return Decimal(found["number"])


def _read_lb_oz(written: str, shown: str) -> Decimal:
    plain = _PLAIN.match(written)
    if plain and (plain["unit"] or "").lower() == "kg":
        raise WEIGHT_IN_KILOGRAMS.wrong(shown=shown)
    if plain and not plain["unit"]:
        if Decimal(plain["number"]) == 0:
            return Decimal(0)
        raise NO_POUNDS_AND_OUNCES.wrong(shown=shown)
    found = _DASHED.match(written) or _WORDED.match(written)
    if found is None or not written:
        raise NOT_POUNDS_AND_OUNCES.wrong(shown=shown)
    parts = found.groupdict()
    if parts["oz"] is None and parts["over"] is None and ("mark" not in parts or parts["mark"] is not None):
        raise NO_OUNCES.wrong(shown=shown)
    ounces = Decimal(parts["oz"] or 0)
    if parts["over"] is not None:
        over, under = int(parts["over"]), int(parts["under"])
        if under not in _FRACTIONS or over >= under:
            raise ODD_FRACTION.wrong(shown=shown)
        if ounces != ounces.to_integral_value():
            raise DECIMALS_AND_FRACTION.wrong(shown=shown)
        ounces += Decimal(over) / Decimal(under)
    if ounces >= 16:
        raise TOO_MANY_OUNCES.wrong(shown=shown)
    return Decimal(parts["lb"] or 0) + ounces * OUNCE
