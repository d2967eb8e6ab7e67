"""Who has a place in an event and who waits for one: worked out here and nowhere else."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Q

from weighin.events.models import Event
from weighin.registration.queries.paying_order import in_order_of_payment
from weighin.roster.models import Entry
from weighin.signup.models import SignUp, SignUpTerms


@dataclass(frozen=True)
class Places:
    """The entered teams with a place, and those that wait, each in their order. ``limit`` None: everybody has one."""

    limit: int | None
    inside: tuple[Entry, ...]
    waiting: tuple[Entry, ...]

    def waits_at(self, entry: int) -> int:
        """The place of an entry (its key) on the waiting list, from 1; 0 where it does not wait."""
        return next((place for place, one in enumerate(self.waiting, start=1) if one.pk == entry), 0)


def places_of(event: Event) -> Places:
    """Paid teams stand before unpaid ones: those in the order of payment, these in the order of sign-up.

    A team that the desk entered stands among the unpaid ones where it was entered.
    """
    limit = SignUpTerms.objects.filter(event=event).values_list("places", flat=True).first()
    entries = list(Entry.everyone.filter(event=event, status=Entry.Status.ENTERED).order_by("number"))
    order = in_order_of_payment(event, [entry for entry in entries if entry.paid])
    order += _in_order_of_sign_up(event, [entry for entry in entries if not entry.paid])
    inside = len(order) if limit is None else limit
    return Places(limit, tuple(order[:inside]), tuple(order[inside:]))


def without_place(event: Event) -> set[int]:
    """The keys of the entries that wait for a place; one that has a boat number already stays in every draw."""
    if not SignUpTerms.objects.filter(event=event, places__isnull=False).exists():
        return set()
    return {entry.pk for entry in places_of(event).waiting if entry.waits}


def names_to_show(event: Event, places: Places) -> list[str]:
    """The names of the teams with a place, but for youth teams and those with a minor: a team's name may name a child."""
    minors = Q(minor_1=True) | Q(minor_2=True) | Q(minor_3=True)
    young = set(SignUp.objects.filter(minors, event=event).values_list("entry", flat=True))
    return sorted((one.name for one in places.inside if not one.youth and one.pk not in young), key=str.casefold)


def _in_order_of_sign_up(event: Event, entries: Sequence[Entry]) -> list[Entry]:
    """The entries in their order, but those that signed up change places among themselves: approval shuffles nobody."""
    signed = dict(SignUp.objects.filter(event=event, entry__in=entries).values_list("entry", "number"))
    in_turn = iter(sorted((entry for entry in entries if entry.pk in signed), key=lambda entry: signed[entry.pk]))
    return [next(in_turn) if entry.pk in signed else entry for entry in entries]
