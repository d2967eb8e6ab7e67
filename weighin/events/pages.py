"""A kind of row as its pages know it: its book, form, reader and template."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.events.services.rows import Book

Address = tuple[str, list[Any]]


@dataclass(frozen=True)
class Desk:
    """A kind of row on paper: where it is kept, its form, its reader, its template and the list it belongs to.

    ``read`` turns the form's texts into values for a locked event; ``template`` extends ``records/row.html``.
    """

    book: Book[Any]
    form: type[RowForm]
    read: Callable[[Event, Mapping[str, str]], Mapping[str, Any]]
    template: str
    back: str


def of_event(
    read: Callable[[Mapping[str, str], CareContext], Mapping[str, Any]],
) -> Callable[[Event, Mapping[str, str]], Mapping[str, Any]]:
    """A reader that asks for a scene, as one of the event itself."""
    return lambda event, written: read(written, care_context_of(event))
