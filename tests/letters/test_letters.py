"""The queue of e-mail: queued with a write, sent once after it, tried again, given up, forgotten."""

import smtplib
from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
from django.core import mail
from django.core.mail import EmailMessage
from django.core.management import CommandError, call_command
from django.test import override_settings
from django.utils import timezone
from patience import until

from weighin.letters.domain import before
from weighin.letters.models import Letter
from weighin.letters.services import queueing, sending
from weighin.letters.services.queueing import queue_letter
from weighin.letters.services.sending import AGAIN, LetterSender, send_letters

pytestmark = pytest.mark.django_db
ANN = "ann@lake.example"


@pytest.fixture(autouse=True)
def _with_mail() -> Iterator[None]:
    with override_settings(MAIL_FROM="Alder Club <desk@lake.example>"):
        yield


def queue(key: str = "one", to: str = ANN, **more: Any) -> Letter | None:
    return queue_letter(key, to, "A subject\nof two lines", "Words", **more)


def later(minutes: float) -> None:
    """Let so many minutes go by for what waits."""
    for letter in Letter.objects.all():
        letter.due_at -= timedelta(minutes=minutes)
        letter.sent_at = letter.sent_at and letter.sent_at - timedelta(minutes=minutes)
        letter.save()


def refuse(monkeypatch: pytest.MonkeyPatch, fault: Exception) -> None:
    def send(self: EmailMessage, fail_silently: bool = False) -> int:
        raise fault

    monkeypatch.setattr(EmailMessage, "send", send)


def test_a_letter_goes_once_and_nothing_of_it_is_left() -> None:
    queue()
    assert queue("one", "other@lake.example") == Letter.objects.get()
    assert send_letters().sent == 1
    assert send_letters().sent == 0
    (sent,) = mail.outbox
    assert (sent.to, sent.subject, sent.body) == ([ANN], "A subject of two lines", "Words")
    assert sent.from_email == "Alder Club <desk@lake.example>"
    assert sent.extra_headers["Message-ID"].endswith("@lake.example>")
    letter = Letter.objects.get()
    assert (letter.address, letter.subject, letter.body) == ("", "", "") and letter.sent_at
    assert ANN not in letter.address_mark


def test_without_a_mail_server_nothing_is_queued() -> None:
    with override_settings(MAIL_FROM=""):
        assert queue() is None
        with pytest.raises(CommandError, match="WEIGHIN_SMTP"):
            call_command("send_letters")
    assert queue(to="  ") is None
    assert not Letter.objects.exists()


def test_one_address_gets_one_an_hour_and_few_wait() -> None:
    hour = timedelta(hours=1)
    for number in range(queueing.MOST_WAITING + 5):
        queue(str(number), [ANN, " Ann@Lake.Example "][number % 2], apart=hour)
    assert Letter.objects.count() == queueing.MOST_WAITING
    for minutes, sent in ((0, 1), (30, 0), (31, 1), (20, 0), (41, 1)):
        later(minutes)
        assert send_letters().sent == sent
    queue("other", "bob@lake.example", apart=hour)
    assert send_letters().sent == 1


def test_two_processes_that_queue_at_once_still_send_one_an_hour() -> None:
    hour = timedelta(hours=1)
    queue("one", apart=hour)
    queue("two", apart=hour)
    Letter.objects.update(due_at=timezone.now())
    assert send_letters().sent == 1
    assert Letter.objects.get(sent_at=None).due_at > timezone.now() + timedelta(minutes=50)


def test_what_the_server_does_not_take_now_is_tried_again_and_given_up_in_the_end(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    queue()
    queue("second", "bob@lake.example")
    refuse(monkeypatch, ConnectionRefusedError())
    assert (send_letters().later, Letter.objects.filter(tries=1).count()) == (1, 1)
    letter = Letter.objects.get(tries=1)
    assert letter.wrong == "ConnectionRefusedError" and letter.due_at > timezone.now()
    refuse(monkeypatch, smtplib.SMTPServerDisconnected())
    for _ in range(len(AGAIN) + 1):
        later(2000)
        send_letters()
    assert Letter.objects.filter(given_up_at=None).count() == 0
    assert not Letter.objects.exclude(address="").exists()


@pytest.mark.parametrize(
    ("fault", "given_up"),
    [
        (smtplib.SMTPRecipientsRefused({ANN: (550, b"nobody")}), 1),
        (smtplib.SMTPRecipientsRefused({ANN: (450, b"busy")}), 0),
        (smtplib.SMTPAuthenticationError(535, b"no"), 0),
        (smtplib.SMTPDataError(554, b"no"), 0),
        (ValueError("a line break"), 1),
    ],
)
def test_a_refusal_for_good_is_not_tried_again(
    monkeypatch: pytest.MonkeyPatch, fault: Exception, given_up: int
) -> None:
    queue()
    refuse(monkeypatch, fault)
    assert send_letters().given_up == given_up
    assert ANN not in Letter.objects.get().wrong


def test_a_letter_that_another_process_has_in_hand_is_left_to_it() -> None:
    queue()
    Letter.objects.update(held_until=timezone.now() + timedelta(minutes=5))
    assert send_letters().sent == 0
    Letter.objects.update(held_until=timezone.now() - timedelta(minutes=5))
    assert send_letters().sent == 1


def test_what_was_sent_a_month_ago_is_forgotten() -> None:
    queue()
    send_letters()
    later(60 * 24 * 31)
    send_letters()
    assert not Letter.objects.exists()


def test_others_look_for_news_before_each_round(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(before, "_known", [])
    before.register(queue)
    before.register(queue)
    assert send_letters().sent == 1


def test_the_command_says_what_became_of_them(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    queue()
    call_command("send_letters")
    assert capsys.readouterr().out == "1 sent, 0 to be tried again, 0 given up.\n"
    queue("two")
    refuse(monkeypatch, ConnectionRefusedError())
    with pytest.raises(CommandError, match="Not all e-mail was taken"):
        call_command("send_letters")


def test_the_servers_sender_goes_on_whatever_happens(monkeypatch: pytest.MonkeyPatch) -> None:
    rounds: list[int] = []

    def fail() -> None:
        rounds.append(1)
        raise RuntimeError("a round that breaks")

    monkeypatch.setattr(sending, "send_letters", fail)
    sender = LetterSender()
    sender.start()
    for wanted in (1, 2):
        queueing.NEWS.set()
        until(lambda wanted=wanted: len(rounds) >= wanted)
    sender.end()
    sender.join(10)
    assert not sender.is_alive()
