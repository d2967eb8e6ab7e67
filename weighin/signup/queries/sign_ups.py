"""Sign-ups of an event: listed, counted, found by a link; names that are taken, and doubts for the desk."""

from collections.abc import Iterator

from django.db.models import Q, QuerySet

from weighin.events.models import Event
from weighin.roster.models import Angler, Contact, Entry
from weighin.roster.parsing.entries import MOST_ANGLERS, EntryValues, entry_faults, known_people
from weighin.rules.faults import Fault
from weighin.rules.look_alikes import look_of
from weighin.signup.domain.fields import PERSONAL
from weighin.signup.domain.tokens import digest_of
from weighin.signup.models import SignUp

ANGLERS = tuple(f"angler_{number}" for number in range(1, MOST_ANGLERS + 1))
GUARDIANS = tuple(f"guardian_{number}" for number in range(1, MOST_ANGLERS + 1))


def sign_ups_of(event: Event) -> "QuerySet[SignUp]":
    """The sign-ups of an event with their entries, in the order in which they came."""
    return SignUp.objects.filter(event=event).select_related("entry").order_by("number")


def by_token(token: str) -> SignUp | None:
    """The sign-up of a link, with its event."""
    found = SignUp.objects.select_related("entry", "event__season__club", "event__water", "event__rule_sheet")
    return found.filter(token_digest=digest_of(token)).first()


def asked_of(event: Event) -> "QuerySet[SignUp]":
    """Those that wait for the desk."""
    return SignUp.objects.filter(event=event, state=SignUp.State.ASKED)


def open_of(event: Event) -> int:
    """How many wait for the desk, or are entered and have not paid."""
    unpaid = Q(entry__status=Entry.Status.ENTERED, entry__paid=False)
    return SignUp.objects.filter(Q(state=SignUp.State.ASKED) | unpaid, event=event).count()


def is_taken(event: Event, name: str, besides: SignUp | None = None) -> bool:
    """Whether a team that is entered, or waits for the desk, has a name that looks like this."""
    look = look_of(name)
    asked = asked_of(event).exclude(pk=besides.pk) if besides else asked_of(event)
    names = [*Entry.everyone.filter(event=event).values_list("name", flat=True), *asked.values_list("name", flat=True)]
    return any(look_of(one) == look for one in names)


def entry_values(sign_up: SignUp) -> EntryValues:
    """A sign-up as a team to be entered: it waits for its boat number."""
    return EntryValues(
        boat=None,
        name=sign_up.name,
        anglers=tuple(getattr(sign_up, name) for name in ANGLERS),
        youth=sign_up.youth,
    )


def doubts_of(sign_up: SignUp) -> list[Fault]:
    """What the desk should look at before it approves: anglers that fish in another team."""
    people = Angler.objects.filter(entry__event=sign_up.event).values_list("name", "entry__boat", "entry__name")
    others = [
        (getattr(other, name), None, other.name)
        for other in asked_of(sign_up.event).exclude(pk=sign_up.pk)
        for name in ANGLERS
        if getattr(other, name)
    ]
    return entry_faults(entry_values(sign_up), {}, {**known_people(others), **known_people(people)}, set())


def anglers_of(sign_up: SignUp) -> list[tuple[int, str]]:
    """The anglers by their line, wherever they stand now."""
    if sign_up.entry is not None:
        return [(angler.position, angler.name) for angler in sign_up.entry.anglers.all()]
    named = [(number, getattr(sign_up, name)) for number, name in enumerate(ANGLERS, start=1)]
    return [(number, name) for number, name in named if name]


def email_of(sign_up: SignUp) -> str:
    """Where the team is written to, wherever the address stands now; blank where it gave none."""
    if sign_up.entry_id is None:
        return sign_up.email
    return Contact.objects.filter(entry=sign_up.entry_id).values_list("email", flat=True).first() or ""


def holding_names(events: "QuerySet[Event]") -> "QuerySet[SignUp]":
    """The sign-ups of these events that still hold something that a person wrote."""
    asked = Q()
    for name in ("name", "reason", *PERSONAL):
        asked |= ~Q(**{name: ""})
    return SignUp.objects.filter(asked, event__in=events)


def texts_of_person(sign_up: SignUp) -> Iterator[str]:
    """Everything that a sign-up holds of persons, and the names that it holds for a team."""
    return (text for name in ("name", "reason", *PERSONAL) if (text := getattr(sign_up, name)))
