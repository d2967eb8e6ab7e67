"""Take a sign-up in through the door, decide about it, withdraw it."""

import json
from collections.abc import Mapping
from typing import Any, ClassVar
from uuid import UUID

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.utils import timezone
from django.utils.crypto import salted_hmac
from django.utils.translation import get_language, gettext, gettext_lazy

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.faults import ANGLER_TWICE
from weighin.roster.domain.weighed import is_on_slips
from weighin.roster.models import Entry
from weighin.roster.parsing.contacts import LONGEST
from weighin.roster.parsing.entries import FIELDS, MOST_ANGLERS, EntryValues
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.roster.services.teams import change_entry, enter_team
from weighin.rules import values
from weighin.rules.faults import Faults
from weighin.rules.look_alikes import folded_name
from weighin.signup.domain import faults
from weighin.signup.domain.consent import consent_words
from weighin.signup.domain.fields import PERSONAL, SIGN_UP
from weighin.signup.domain.opening import Door
from weighin.signup.domain.tokens import digest_of, token_of
from weighin.signup.models import Approval, SignUp
from weighin.signup.queries.opening import begins, opening_of, terms_of
from weighin.signup.queries.places import places_of
from weighin.signup.queries.sign_ups import GUARDIANS, doubts_of, entry_values, is_taken, open_of
from weighin.signup.services.telling import tell, tell_places

MOST_OPEN = (
    300  # of one event that wait for the desk or have not paid; common practice, no source: more than boats fish
)


class SignUpRecord(RecordType[SignUp]):
    """What a team writes. The history says its number alone: nobody can take back what a stranger typed there."""

    model = SignUp
    noun = gettext_lazy("sign-up")
    fields = SIGN_UP
    scope: ClassVar[Scope] = EVENT

    def __init__(self, site: str = "") -> None:
        self.site = site

    def check(self, reader: Reader, old: SignUp | None) -> None:
        event = reader.context.event
        terms = terms_of(event)
        if opening_of(event, terms).door is not Door.OPEN:
            reader.fault("", faults.NOT_OPEN)
            return
        if open_of(event) >= MOST_OPEN:
            reader.fault("", faults.TOO_MANY)
        if reader["name"] and is_taken(event, reader["name"]):
            reader.fault("name", faults.TEAM_NAME_TAKEN)
        if reader["email"] and reader.sure("email") and not _is_address(reader["email"]):
            reader.fault("email", faults.ODD_ADDRESS, email=reader["email"][:40])
        _check_anglers(reader, terms.guardian_below)

    def before(self, row: SignUp, old: SignUp | None, context: EventContext) -> None:
        terms = terms_of(context.event)
        row.said_digest = _digest({one.name: getattr(row, one.name) for one in self.fields})
        row.token_digest = digest_of(token_of(row.pk, row.link_number))
        row.site, row.language = self.site, get_language() or settings.LANGUAGE_CODE
        if row.consent and terms.guardian_below and any(getattr(row, name) for name in GUARDIANS):
            row.consent_words = consent_words(context.event.club.name, context.event.name, terms.guardian_below)
            row.consented_at = timezone.now()

    def after(self, row: SignUp, old: SignUp | None, context: EventContext, known: None) -> None:
        _note(context.event, row, "came_in", gettext("Sign-up %(number)s came in"), gettext("the team itself"))

    def history(self, row: SignUp, old: SignUp | None, done: str) -> Noted | None:
        return None  # ``after`` says it, without what the team wrote

    def same(self, row: SignUp, draft: Draft, context: Any) -> bool:
        """By a digest of what was written: the row itself is blank once the team is entered."""
        reader = self.read(draft, context, whole=False)
        return not reader.faults and row.said_digest == _digest(reader.values)


def sign_up(event: Event, said: Mapping[str, str], id: UUID, site: str = "") -> SignUp:
    """Keep a sign-up, and enter the team where the terms say at once and nothing is doubtful; texts by field.

    The same ``id`` again keeps nothing twice. ``site`` is the address that links in letters begin with. Raises Faults
    with field names.
    """
    with writing():
        held = EVENT.lock(event.pk).event
        texts = {name: text for name, text in said.items() if text}
        outcome = write(SignUpRecord(site), event.pk, Draft(texts, id), Sender(gettext("the team itself"), asked=True))
        row = outcome.kept()
        if outcome.state == "already":
            return row
        # What is doubtful waits for the desk, without a word: a stranger must not find out here who fishes
        if terms_of(held).approval == Approval.AT_ONCE and not doubts_of(row):
            return approve(row, gettext("the team itself"))
        tell(row, "came_in")
    return row


def approve(sign_up: SignUp, by: str) -> SignUp:
    """Enter the team through the same door as the desk's. Raises Faults with the field names of a sign-up."""
    with writing():
        event = lock_open_event(sign_up.event)
        row = _undecided(sign_up)
        contact = ContactValues(**{name: getattr(row, name) for name in LONGEST})
        row.entry = enter_team(event, entry_values(row), by, contact)
        _decide(row, SignUp.State.APPROVED, by)
        _blank(row, [name for name in PERSONAL if name not in GUARDIANS])
        waits_at = places_of(event).waits_at(row.entry.pk)
        row.told_to_wait = bool(waits_at)
        row.save()
        _note(event, row, "approved", gettext("Sign-up %(number)s approved"), by)
        tell(row, "waits" if waits_at else "entered")
        tell_places(event)
    return row


def refuse(sign_up: SignUp, reason: str, by: str) -> SignUp:
    """Refuse a sign-up with a reason that the team is told. Raises Faults for ``reason``."""
    why, wrong = values.reason(reason, faults.NO_REFUSAL_REASON.at("reason"))
    if wrong:
        raise Faults(wrong)
    with writing():
        event = lock_open_event(sign_up.event)
        row = _undecided(sign_up)
        _decide(row, SignUp.State.REFUSED, by)
        row.reason = why
        tell(row, "refused")
        _blank(row, PERSONAL)
        row.save()
        _note(event, row, "refused", gettext("Sign-up %(number)s refused: %(why)s"), by, why=why)
    return row


def withdraw(sign_up: SignUp) -> SignUp:
    """Withdraw a sign-up by its team, once the team is entered as the desk would. Raises Faults."""
    with writing():
        event = lock_open_event(sign_up.event)
        row = SignUp.objects.select_related("entry").get(pk=sign_up.pk)
        by = gettext("the team itself")
        if row.state == SignUp.State.ASKED:
            _blank(row, PERSONAL)
        elif row.state == SignUp.State.APPROVED:
            _withdraw_entry(event, row.entry, by)
        else:
            return row
        _decide(row, SignUp.State.WITHDRAWN, by)
        row.save()
        _note(event, row, "withdrawn", gettext("Sign-up %(number)s withdrawn by its team"), by)
        tell_places(event)
    return row


def new_link(sign_up: SignUp, by: str) -> SignUp:
    """Give the team another link; the one before opens nothing anymore. Also once the event is closed."""
    with writing():
        event = Event.everyone.select_for_update(of=("self",)).select_related("season").get(pk=sign_up.event_id)
        row = SignUp.objects.select_related("entry").get(pk=sign_up.pk)
        row.link_number += 1
        row.token_digest = digest_of(token_of(row.pk, row.link_number))
        row.save(update_fields=["link_number", "token_digest"])
        _note(event, row, "new_link", gettext("Sign-up %(number)s: a new link was added"), by)
    return row


def _withdraw_entry(event: Event, entry: Entry | None, by: str) -> None:
    if entry is None or entry.status != Entry.Status.ENTERED:
        raise Faults([faults.NOT_ENTERED.at("")])
    if timezone.now() >= begins(event) or (not entry.waits and is_on_slips(entry)):
        raise Faults([faults.BEGUN.at("")])
    lines = {angler.position: angler.name for angler in entry.anglers.all()}
    values = {name: getattr(entry, name) for name in FIELDS}
    anglers = tuple(lines.get(number, "") for number in range(1, MOST_ANGLERS + 1))
    change_entry(entry, EntryValues(**{**values, "status": Entry.Status.WITHDRAWN.value}, anglers=anglers), by)


def _undecided(sign_up: SignUp) -> SignUp:
    row = SignUp.objects.select_related("event__season__club").get(pk=sign_up.pk)
    if row.state != SignUp.State.ASKED:
        raise Faults([faults.DECIDED_ALREADY.at("", number=row.number, state=row.get_state_display())])
    return row


def _decide(row: SignUp, state: SignUp.State, by: str) -> None:
    row.state, row.decided_by, row.decided_at = state, by, timezone.now()


def _blank(row: SignUp, names: Any) -> None:
    """Take away what is kept of persons; what a guardian consented to goes with the guardian."""
    for name in names:
        setattr(row, name, "")
    if not any(getattr(row, name) for name in GUARDIANS):
        row.consent_words = ""


def _note(event: Event, row: SignUp, act: str, sentence: str, by: str, **more: str) -> None:
    said = {"number": row.number, **more}
    raise_revision(event)
    log_history(
        by,
        f"sign_up.{act}",
        sentence % said,
        club_id=event.season.club_id,
        event_id=event.pk,
        subject=gettext("sign-up %(number)s") % said,
    )


def _check_anglers(reader: Reader, age: int | None) -> None:
    """Each angler once, with an age where one is asked, and a guardian's name and consent where that is below it."""
    own: set[str] = set()
    minors = False
    for number in range(1, MOST_ANGLERS + 1):
        angler, minor, guardian = f"angler_{number}", f"minor_{number}", f"guardian_{number}"
        folded = folded_name(reader[angler])
        if not folded:
            if number > 1 and reader.sure(angler) and (reader[minor] or reader[guardian]):
                reader.fault(angler, faults.ANGLER_OF_AGE_MISSING)
            continue
        if folded in own:
            reader.faults.append(ANGLER_TWICE.at(angler, name=reader[angler]))
        own.add(folded)
        if age is None:
            continue
        if reader[minor] is None:
            if reader.sure(minor):
                reader.fault(minor, faults.AGE_MISSING, age=age)
        elif reader[minor]:
            minors = True
            if not reader[guardian] and reader.sure(guardian):
                reader.fault(guardian, faults.GUARDIAN_MISSING, age=age)
            elif folded_name(reader[guardian]) == folded:
                reader.fault(guardian, faults.GUARDIAN_IS_ANGLER)
        elif reader[guardian]:
            reader.fault(guardian, faults.GUARDIAN_OF_ADULT, age=age)
    if minors and not reader["consent"]:
        reader.fault("consent", faults.CONSENT_MISSING, age=age)


def _is_address(text: str) -> bool:
    try:
        validate_email(text)
    except ValidationError:
        return False
    return True


def _digest(values: Values) -> str:
    said = json.dumps([str(values[one.name] or "") for one in SIGN_UP])
    return salted_hmac("weighin.signup.said", said, algorithm="sha256").hexdigest()
