"""Words and figures for templates: weights, money, minutes, shares, temperatures, states and the ways."""

from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from django import template
from django.http import HttpRequest
from django.template import Context
from django.templatetags.static import static
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe

from weighin.rules import weights
from weighin.ui import catalogue as catalogues
from weighin.ui import figures, nouns
from weighin.ui.charts import Drawing, Drawings, svg
from weighin.ui.figures import MINUS, SPACE
from weighin.ui.modules import module

register = template.Library()

Number = Decimal | int | float
STATES = ("done", "going", "open", "none")


def _rounded(value: Number, decimals: int) -> Decimal:
    return Decimal(str(value)).quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)


@register.filter
def weight(value: Decimal | None, unit: str = "lb") -> str:
    """``{{ total|weight:event.weight_unit }}``: the figures alone, blank when not recorded."""
    return "" if value is None else weights.show(value, unit).replace("-", MINUS, 1 if value < 0 else 0)


@register.filter
def spoken(value: Decimal, unit: str) -> str:
    """``{{ total|spoken:unit }}``: a weight with its unit, for a sentence: 9.47 lb, 10 lb 14 oz; no line ends within it."""
    return weights.spoken(value, unit).replace(" ", SPACE)


@register.filter
def taken_off(value: Decimal | None, unit: str = "lb") -> str:
    """``{{ penalty|taken_off:unit }}``: a deduction as in a ledger, with its minus; blank when nothing."""
    return f"{MINUS}{SPACE}{weights.show(value, unit)}" if value else ""


@register.simple_tag
def reading(value: Decimal | None, unit: str = "lb", size: str = "") -> SafeString | str:
    """``{% reading total unit "big" %}``: the figure with its unit after it, small."""
    if value is None:
        return ""
    return format_html(
        '<span class="{}">{}<small>{}</small></span>',
        f"figure {size}".strip(),
        weight(value, unit),
        word(unit),
    )


@register.filter
def word(unit: str) -> str:
    """The word written after a weight in ``unit``."""
    return weights.word(unit)


@register.filter
def minutes(value: Number | None) -> str:
    """``{{ held|minutes }}``: 8 min, 12.5 min; from two hours on 2 h 5 min."""
    if value is None:
        return ""
    size = abs(Decimal(str(value)))
    if size >= 120:
        hours, left = divmod(int(_rounded(size, 0)), 60)
        return f"{MINUS if value < 0 else ''}{hours}{SPACE}h {left}{SPACE}min"
    tenths = _rounded(value, 1)
    shown = f"{tenths:.0f}" if tenths == tenths.to_integral_value() else f"{tenths}"
    return f"{shown.replace('-', MINUS)}{SPACE}min"


@register.filter
def percent(value: Number | None, decimals: int = 1) -> str:
    """``{{ rate|percent }}``: 0.0604 as 6.0 %; ``{{ rate|percent:0 }}`` as 6 %."""
    if value is None:
        return ""
    return f"{_rounded(Decimal(str(value)) * 100, decimals)}{SPACE}%".replace("-", MINUS)


@register.filter
def temperature(celsius: Number | None, usual: str = "F") -> str:
    """``{{ lake_c|temperature }}``: degrees Celsius in the club's unit; 79.6 °F, or ``usual``, where it has none."""
    return "" if celsius is None else figures.degrees(celsius, "C", usual)


for _form in (figures.day, figures.short_day, figures.clock, figures.exact_clock, figures.moment, figures.exact_moment):
    register.filter(_form.__name__, _form, expects_localtime=True)
# ``{{ entry.at|zoned }}``: with whose clock it is, where the page does not say it
register.filter("zoned", figures.zoned, expects_localtime=True)
register.filter("money", figures.money)
register.filter("degrees", figures.written_degrees)


@register.simple_tag
def clock_now() -> str:
    """``{% clock_now as made %}``: the time now, by the clock of the page's event."""
    return figures.clock(timezone.localtime())


@register.simple_tag
def hours() -> SafeString | str:
    """``<html{% hours %}>``: tells the scripts of a club's clock of 24 hours; 12 need no word."""
    return mark_safe(' data-hours="24"') if figures.writing().hours == 24 else ""


@register.filter
def in_words(count: int) -> str:
    """``{{ waiting|in_words|capfirst }}``: numbers to twelve in words, larger ones in figures."""
    return nouns.in_words(count)


register.filter("recorder", nouns.recorder)


@register.filter
def grouped(value: Any) -> Any:
    """``{{ value|grouped }}``: a number with commas between thousands; anything else as it is."""
    return f"{value:,}" if isinstance(value, (Decimal, int)) else value


@register.filter
def counted(count: int, noun: str) -> str:
    """``{{ n|counted:"boat" }}``: 1 boat, 24 boats; the nouns and their plurals stand in ``ui/nouns.py``."""
    return nouns.counted(count, noun)


@register.filter
def counted_in_words(count: int, noun: str) -> str:
    """``{{ n|counted_in_words:"day" }}``: one day, two days, 13 days."""
    return nouns.counted(count, noun, nouns.in_words(count))


@register.filter
def names(things: Iterable[Any], of: str = "") -> str:
    """``{{ events|names }}``: their names with commas between them; of each thing's ``event`` with ``:"event"``."""
    return ", ".join(str((getattr(thing, of) if of else thing).name) for thing in things)


@register.simple_tag
def state(kind: str, words: object) -> SafeString:
    """``{% state "done" "on the server" %}``: done, going, open (not begun, kept here) or none.

    Raises ValueError when ``kind`` is none of these.
    """
    if kind not in STATES:
        raise ValueError(f"'{kind}' is not a state: choose {', '.join(STATES)}")
    return format_html('<span class="state is-{}">{}</span>', kind, words)


@register.simple_tag(takes_context=True)
def way(context: Context, words: str, name: str, *args: object, **kwargs: object) -> SafeString:
    """``{% way "Standings" "standings:live" event.slug %}``: a link of the ways, marked on its own page.

    The page below a way (``/events/x/slips/7`` below ``/events/x/slips/``) counts as its own with
    ``under=True``.
    """
    under = kwargs.pop("under", False)
    url = reverse(name, args=args, kwargs=kwargs or None)
    request = context.get("request")
    here = request.path if isinstance(request, HttpRequest) else ""
    if here == url:
        return format_html('<a href="{}" aria-current="page">{}</a>', url, words)
    if under and here.startswith(url):
        return format_html('<a href="{}" aria-current="true">{}</a>', url, words)
    return format_html('<a href="{}">{}</a>', url, words)


@register.simple_tag
def chart(drawing: Drawing | Drawings, name: str) -> SafeString:
    """``{% chart rates "by-temperature" %}``: one drawing, or the one of three that fits the page."""
    if isinstance(drawing, Drawing):
        return svg(drawing, name)
    return format_html(
        '<div class="at-whole">{}</div><div class="at-half">{}</div><div class="at-phone">{}</div>',
        svg(drawing.whole, name),
        svg(drawing.half, f"{name}-half"),
        svg(drawing.phone, f"{name}-phone"),
    )


@register.simple_tag
def modules(*names: str) -> SafeString:
    """``{% modules "table/page" %}``: a page's own scripts; they import the others."""
    return format_html_join(
        "\n", '<script type="module" src="{}"></script>', [(static(module(name)),) for name in names]
    )


@register.simple_tag
def catalogue() -> SafeString | str:
    """``{% catalogue %}``: the sentences of the scripts in the page's language, before any module; nothing in English."""
    address = catalogues.address()
    return format_html('<script src="{}" defer></script>', address) if address else ""
