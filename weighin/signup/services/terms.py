"""Set the terms of a sign-up, and with them open it or close it."""

from collections.abc import Mapping

from django.utils import timezone
from django.utils.translation import gettext, gettext_lazy

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted
from weighin.roster.services.event_rows import EventRow
from weighin.roster.services.event_scope import EVENT
from weighin.signup.domain import faults
from weighin.signup.domain.fields import TERMS
from weighin.signup.models import SignUpTerms


class TermsRecord(EventRow[SignUpTerms]):
    """The one row of an event that says when and how teams can sign up."""

    model = SignUpTerms
    noun = gettext_lazy("sign-up terms")
    act = "sign_up_terms"
    fields = TERMS
    key = ""

    def check(self, reader: Reader, old: SignUpTerms | None) -> None:
        opens, closes = reader["opens"], reader["closes"]
        if opens and closes and closes <= opens:
            reader.fault("closes", faults.CLOSES_BEFORE_IT_OPENS, "opens")

    def history(self, row: SignUpTerms, old: SignUpTerms | None, done: str) -> Noted:
        said = gettext("Terms of the sign-up: open") if row.is_open else gettext("Terms of the sign-up: closed")
        return Noted(f"sign_up_terms.{done}", said, gettext("the sign-up"))


TERMS_RECORD = TermsRecord()


def set_terms(event: Event, said: Mapping[str, str], by: str) -> SignUpTerms:
    """Set or change the terms; texts by field. Raises Faults with field names."""
    with writing():
        EVENT.lock(event.pk)
        old = SignUpTerms.objects.filter(event=event).first()
        now = timezone.now()
        was_open = old is not None and (old.was_open or (old.is_open and (old.opens is None or old.opens <= now)))
        texts = {name: text for name, text in said.items() if text}
        row = write(TERMS_RECORD, event.pk, Draft(texts, replaces=old and old.pk), Sender(by, asked=True)).kept()
        if row.was_open != was_open:
            row.was_open = was_open
            row.save(update_fields=["was_open"])
    return row
