"""After a restore no letter goes twice, and a link that was taken back opens nothing."""

import pytest
from django.core import mail
from django.test import Client, override_settings
from signup.form import event, send

from weighin.letters.models import Letter
from weighin.letters.services.sending import send_letters
from weighin.safekeeping.services.over_already import over_already
from weighin.signup.models import SignUp
from weighin.signup.services.sign_ups import new_link

pytestmark = pytest.mark.django_db


def test_what_was_sent_and_taken_back_stays_so() -> None:
    with override_settings(MAIL_FROM="desk@lake.example"):
        found = event()
        old = send(Client(), found)["Location"]
        letters, sign_ups = list(Letter.objects.values()), list(SignUp.objects.values())
        send_letters()
        new_link(SignUp.objects.get(), "mara")
        end_once_more = over_already()
        # As the backup of before has it
        Letter.objects.update(**{name: letters[0][name] for name in ("sent_at", "address", "subject", "body")})
        SignUp.objects.update(**{name: sign_ups[0][name] for name in ("link_number", "token_digest")})
        assert Client().get(old).status_code == 200
        end_once_more()
        assert send_letters().sent == 0 and len(mail.outbox) == 1
        assert Client().get(old).status_code == 404
