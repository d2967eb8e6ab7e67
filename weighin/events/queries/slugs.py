"""An event's place in addresses: its name and year, free of other events'."""

from datetime import date

from django.utils.text import slugify

from weighin.events.models import Event

RESERVED = {"new", "import", "club"}


def free_slug(name: str, first_day: date) -> str:
    """``midsummer-pairs-2026``, with -2, -3, ... when that is taken. Call it inside the write that uses it."""
    base = slugify(name)[:110] or "event"
    if not base.endswith(str(first_day.year)):
        base = f"{base}-{first_day.year}"
    slug, number = base, 1
    while slug in RESERVED or Event.everyone.filter(slug=slug).exists():
        number += 1
        slug = f"{base}-{number}"
    return slug
