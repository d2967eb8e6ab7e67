"""Send the e-mail that waits, where no server of the site runs to do it."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils.translation import gettext

from weighin.letters.queries import mail_is_set
from weighin.letters.services.sending import send_letters


class Command(BaseCommand):
    help = "Send the e-mail that waits; a server does it by itself."

    def handle(self, *args: Any, **options: Any) -> None:
        if not mail_is_set():
            raise CommandError(
                gettext("No e-mail is set up: set WEIGHIN_SMTP and WEIGHIN_MAIL_FROM, then start again.")
            )
        found = send_letters()
        said = {"sent": found.sent, "later": found.later, "given_up": found.given_up}
        self.stdout.write(gettext("%(sent)s sent, %(later)s to be tried again, %(given_up)s given up.") % said)
        if found.later or found.given_up:
            raise CommandError(gettext("Not all e-mail was taken: look at WEIGHIN_SMTP, or wait for the next try."))
