"""Where a name stands in what a club keeps: every text of every table that belongs to the club, asked of the tables themselves."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from django.apps import apps
from django.db.models import CharField, Field, ForeignKey, JSONField, Model, Q, TextField

from weighin.audit.models import AppendOnly, HistoryEntry, KeptAside
from weighin.clubs.models import Club, Membership
from weighin.events.models import Event
from weighin.privacy.domain.words import says
from weighin.privacy.models import ClubPrivacy
from weighin.roster.models import Angler, Contact, Entry
from weighin.signup.models import SignUp

# What erasing a name takes away; everything else that says it stays, or is changed where it was written
ERASED = (Angler, Contact, KeptAside, SignUp)
MOST_STEPS = 4


@dataclass(frozen=True)
class Mention:
    """A text that says the name: in which table and field, of which event, and whether erasing takes it away.

    ``chained`` texts stand in rows that are only ever added: nothing can change them unseen, not even to erase.
    """

    kept_in: str
    field: str
    event: str
    text: str
    erased: bool
    chained: bool


def mentions(club: Club, name: str) -> list[Mention]:
    """Every text of the club that says the name, those that erasing takes away first."""
    found = [mention for model in _models() for mention in _of(model, club, says(name))]
    return sorted(found, key=lambda one: (not one.erased, one.chained, one.kept_in, one.event))


def _of(model: type[Model], club: Club, tells_of: Callable[[str], bool]) -> Iterator[Mention]:
    way, event = _way(model)
    names = [field.name for field in _texts(model)]
    asked = Q(**{way: club.pk})
    if model in (HistoryEntry, KeptAside):
        asked |= Q(event_id__in=Event.everyone.filter(season__club=club).values("pk"))
    known = dict(Event.everyone.filter(season__club=club).values_list("pk", "name"))
    for *texts, of in model._base_manager.filter(asked).order_by("pk").values_list(*names, event or "pk"):
        for name, value in zip(names, texts, strict=True):
            text = value if isinstance(value, str) else str(value or "")
            if text and tells_of(text):
                yield Mention(
                    str(model._meta.verbose_name),
                    name.replace("_", " "),
                    known.get(of, "") if event else "",
                    text,
                    model in ERASED or (model is Entry and name == "note"),
                    issubclass(model, AppendOnly),
                )


@cache
def _models() -> tuple[type[Model], ...]:
    """Every table with texts whose rows lead to a club, except the club's own settings and its members."""
    ours = [model for model in apps.get_models() if model.__module__.startswith("weighin.")]
    left = [model for model in ours if model not in (Club, Membership, ClubPrivacy)]
    return tuple(model for model in left if _texts(model) and _way(model)[0])


def _texts(model: type[Model]) -> "list[Field[Any, Any]]":
    """Fields in which somebody may have written a name."""
    return [
        field
        for field in model._meta.concrete_fields
        if isinstance(field, CharField | TextField | JSONField) and not field.choices and not field.primary_key
        and field.name not in ("link", "salt", "digest", "token_digest", "said_digest", "address_mark", "key")
    ]  # fmt: skip


@cache
def _way(model: type[Model]) -> tuple[str, str]:
    """How to ask for the rows of a club, and for the event of a row; empty where the row leads to none."""
    named = {field.name for field in model._meta.concrete_fields}
    if "club_id" in named:
        return "club_id", "event_id" if "event_id" in named else ""
    waiting: list[tuple[type[Model], tuple[str, ...]]] = [(model, ())]
    event = "pk" if model is Event else ""
    while waiting:
        here, steps = waiting.pop(0)
        for field in here._meta.concrete_fields:
            to = field.related_model if isinstance(field, ForeignKey) else None
            if not isinstance(to, type) or len(steps) == MOST_STEPS or to is model:
                continue
            way = (*steps, field.name)
            if to is Event and not event:
                event = "__".join(way)
            if to is Club:
                return "__".join(way), event
            waiting.append((to, way))
    return "", ""
