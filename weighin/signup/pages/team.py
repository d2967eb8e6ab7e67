"""A team's own page: where its sign-up stands, what it owes and has paid."""

from dataclasses import dataclass
from decimal import Decimal

from django.utils import timezone
from django.utils.translation import gettext

from weighin.registration.domain.cash import NONE
from weighin.registration.forms.money import named
from weighin.registration.queries.till import rows_that_count, till_of
from weighin.roster.models import Entry
from weighin.signup.models import SignUp
from weighin.signup.queries.opening import begins
from weighin.signup.queries.places import places_of
from weighin.signup.queries.sign_ups import anglers_of


@dataclass(frozen=True)
class TeamPage:
    """What a team sees of itself. ``waits_at`` 0: it does not wait; ``can_withdraw`` as far as is known beforehand;
    ``gets_back`` is what it paid, once it is withdrawn."""

    sign_up: SignUp
    entry: Entry | None
    anglers: list[str]
    says: str
    waits_at: int
    waiting: int
    owed: list[tuple[str, Decimal]]
    paid: Decimal
    gets_back: Decimal
    entered: bool
    can_withdraw: bool


def team_page(sign_up: SignUp) -> TeamPage:
    """The page of a sign-up's team."""
    entry, event = sign_up.entry, sign_up.event
    places = places_of(event)
    waits_at = places.waits_at(entry.pk) if entry else 0
    owed: list[tuple[str, Decimal]] = []
    paid = NONE
    if entry is not None:
        till = till_of(event)
        owed = [(named(row.what), row.amount) for row in till.cash.owed if row.entry == entry.pk and row.amount > 0]
        paid = sum((row.amount for row in rows_that_count(event, [entry.pk])), NONE)
    entered = entry is not None and entry.status == Entry.Status.ENTERED
    withdrawn = sign_up.state == SignUp.State.WITHDRAWN or (entry and entry.status == Entry.Status.WITHDRAWN)
    return TeamPage(
        sign_up=sign_up,
        entry=entry,
        anglers=[name for _, name in anglers_of(sign_up)],
        says=_says(sign_up, waits_at),
        waits_at=waits_at,
        waiting=len(places.waiting),
        owed=owed,
        paid=paid,
        gets_back=max(paid, NONE) if withdrawn else NONE,
        entered=entered,
        can_withdraw=sign_up.state == SignUp.State.ASKED or (entered and timezone.now() < begins(event)),
    )


def _says(sign_up: SignUp, waits_at: int) -> str:
    """Where it stands, as a headline."""
    entry = sign_up.entry
    if sign_up.state == SignUp.State.ASKED:
        return gettext("Your sign-up is in. The club checks it first.")
    if sign_up.state == SignUp.State.REFUSED:
        return gettext("The club did not accept this sign-up.")
    if sign_up.state == SignUp.State.WITHDRAWN or (entry is not None and entry.status == Entry.Status.WITHDRAWN):
        return gettext("This team is withdrawn.")
    if entry is None or entry.status != Entry.Status.ENTERED:
        return gettext("This team is not entered anymore. Ask the club.")
    if waits_at:
        return gettext("Your team is on the waiting list: place %(place)s.") % {"place": waits_at}
    return gettext("Your team is entered.")
