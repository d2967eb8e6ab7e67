"""Send the letters that are due: each once, tried again where the server did not take it, and given up in the end."""

import logging
import smtplib
import threading
from dataclasses import dataclass
from datetime import datetime, timedelta
from email.utils import parseaddr

from django.conf import settings
from django.core.mail import EmailMessage
from django.db import connection
from django.utils import timezone

from weighin.audit.services import writing
from weighin.letters.domain.before import look_for_news
from weighin.letters.models import Letter
from weighin.letters.queries import due
from weighin.letters.services.queueing import NEWS
from weighin.ui.outages import outage_of

LOG = logging.getLogger(__name__)
LOOK_SECONDS = 30.0
AT_ONCE = 50
HELD = timedelta(minutes=10)  # longer than a letter takes; whoever had it in hand has ended
AGAIN = tuple(timedelta(minutes=minutes) for minutes in (1, 5, 15, 60, 240, 720, 1440))
KEPT = timedelta(days=30)
REFUSED_FOR_GOOD = 500  # RFC 5321: replies from here on say that trying again is of no use


@dataclass
class Round:
    """What became of the letters that were due."""

    sent: int = 0
    later: int = 0
    given_up: int = 0


def send_letters() -> Round:
    """Send what is due, and forget what was sent or given up a month ago."""
    look_for_news()
    found = Round()
    now = timezone.now()
    for letter in list(due(now)[:AT_ONCE]):
        if not _hold(letter, now):
            continue
        fate = _send(letter)
        _note(letter, fate, found)
        if fate.of_the_server:
            break  # the others would wait for the same refusal, and lose a try each
    old = Letter.objects.filter(due_at__lt=now - KEPT).exclude(sent_at=None, given_up_at=None)
    if old.exists():
        with writing():
            old.delete()
    return found


def _hold(letter: Letter, now: datetime) -> bool:
    """Take a letter in hand; False where another process has it, or one went to its address too lately."""
    with writing():
        apart = timedelta(seconds=letter.apart_seconds)
        lately = Letter.objects.filter(address_mark=letter.address_mark, sent_at__gt=now - apart) if apart else None
        last = lately.order_by("-sent_at").first() if lately is not None else None
        if last is not None and last.sent_at is not None:
            Letter.objects.filter(pk=letter.pk).update(due_at=last.sent_at + apart)
            return False
        return bool(due(now).filter(pk=letter.pk).update(held_until=now + HELD))


@dataclass(frozen=True)
class Fate:
    """What went wrong with a letter, without any address; whether trying again is of no use, or the server takes none."""

    wrong: str = ""
    for_good: bool = False
    of_the_server: bool = False


def _send(letter: Letter) -> Fate:
    host = parseaddr(settings.MAIL_FROM)[1].rpartition("@")[2] or "localhost"
    # The same at every try, so that a server knows one that it has taken already
    headers = {"Message-ID": f"<{letter.pk}@{host}>", "Auto-Submitted": "auto-generated"}
    message = EmailMessage(letter.subject, letter.body, settings.MAIL_FROM, [letter.address], headers=headers)
    try:
        message.send()
    except smtplib.SMTPRecipientsRefused as refused:
        code = min((code for code, _ in refused.recipients.values()), default=0)
        return Fate(f"SMTPRecipientsRefused {code}", code >= REFUSED_FOR_GOOD)
    except smtplib.SMTPResponseException as refused:
        of_the_server = isinstance(
            refused, smtplib.SMTPAuthenticationError | smtplib.SMTPConnectError | smtplib.SMTPHeloError
        )
        return Fate(f"{type(refused).__name__} {refused.smtp_code}", of_the_server=of_the_server)
    except (OSError, smtplib.SMTPException) as fault:
        return Fate(type(fault).__name__, of_the_server=not isinstance(fault, smtplib.SMTPException))
    except ValueError as fault:  # an address or a line that no mail can have
        return Fate(type(fault).__name__, for_good=True)
    return Fate()


def _note(letter: Letter, fate: Fate, found: Round) -> None:
    now = timezone.now()
    tries = letter.tries + 1
    said: dict[str, object] = {"tries": tries, "held_until": None, "wrong": fate.wrong}
    blank = {"address": "", "subject": "", "body": ""}
    if not fate.wrong:
        found.sent += 1
        said |= {"sent_at": now, **blank}
    elif fate.for_good or tries > len(AGAIN):
        found.given_up += 1
        said |= {"given_up_at": now, **blank}
        LOG.warning("An e-mail was given up after %s tries: %s", tries, fate.wrong)
    else:
        found.later += 1
        said["due_at"] = now + AGAIN[tries - 1]
    with writing():
        Letter.objects.filter(pk=letter.pk).update(**said)


class LetterSender(threading.Thread):
    """Sends letters whenever some are due, until ``end``."""

    def __init__(self) -> None:
        super().__init__(name="letters", daemon=True)
        self._ended = threading.Event()

    def run(self) -> None:
        while not self._ended.is_set():
            NEWS.wait(LOOK_SECONDS)
            NEWS.clear()
            if not self._ended.is_set():
                self._round()
        connection.close()

    def end(self) -> None:
        """Let it end after the letter it is at."""
        self._ended.set()
        NEWS.set()

    def _round(self) -> None:
        try:
            send_letters()
        except Exception as fault:  # whatever it is, the next round tries again: a letter hinders nothing
            outage = outage_of(fault)
            LOG.error("No e-mail could be sent: %s", outage.sentence if outage else repr(fault))
