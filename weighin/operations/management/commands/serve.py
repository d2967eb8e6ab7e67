"""The production server."""

import gc
import os
import signal
import sys
from contextlib import suppress
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import DEFAULT_DB_ALIAS, DatabaseError, connections
from django.db.migrations.executor import MigrationExecutor
from django.db.utils import OperationalError
from django.utils.translation import gettext

from weighin import environment
from weighin.accounts.queries.people import nobody_yet
from weighin.accounts.services import sweeping
from weighin.audit.database.in_use import begin_no_file
from weighin.audit.database.triggers import append_only_tables, is_guarded
from weighin.audit.database.turns import turn
from weighin.letters.queries import mail_is_set
from weighin.letters.services.sending import LetterSender
from weighin.operations.middleware.forwarded import client_behind
from weighin.operations.pages.busy import busy_words
from weighin.operations.pages.trust import BROWSERS
from weighin.operations.queries.lan import code, own_addresses
from weighin.operations.services.certificates import LakeCertificate
from weighin.operations.services.encryption import begin_encryption
from weighin.operations.services.imports import sweep
from weighin.rules.faults import Choices
from weighin.safekeeping.database.later_layout import later_changes
from weighin.safekeeping.services.keeping_backups import BackupKeeper, second_place_said
from weighin.serving.encrypted import Encryption
from weighin.serving.server import Site
from weighin.survival import quantiles
from weighin.ui.storage import collect
from weighin.workbooks.parsing.book import MOST_BYTES

COLLECT_AFTER = (10_000, 20, 20)  # Python's own 700 looks for rubbish several times an answer, and finds none
# A workbook and what a form adds to it; anything larger is answered 413 before it fills the disk.
LARGEST_REQUEST = MOST_BYTES + 1024 * 1024
# Python's own 5 ms let two readers hold up a slip, which asks for its turn a dozen times
TURN_SECONDS = 0.0002
EVERY_ADDRESS = ("0.0.0.0", "::")


class Command(BaseCommand):
    help = "Serve the site, static files included, until SIGTERM or Ctrl-C."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--host", default="127.0.0.1", help=gettext("the address to listen at (default 127.0.0.1)"))
        parser.add_argument(
            "--lan",
            action="store_true",
            help=gettext("let phones and tablets in the same network reach it, and print how"),
        )
        parser.add_argument(
            "--https",
            action="store_true",
            help=gettext("encrypt, with a certificate made here, and print what each browser asks"),
        )
        parser.add_argument("--port", type=int, default=8000, help=gettext("the port (default 8000)"))

    def handle(self, *args: Any, **options: Any) -> None:
        host, port = "0.0.0.0" if options["lan"] else options["host"], options["port"]
        if not 1 <= port <= 65535:
            raise CommandError(gettext("--port %(port)s is no port: write a number from 1 to 65535.") % {"port": port})
        self._refuse_old_database()
        named = self._answer_to(host)
        here = own_addresses() if options["lan"] else []
        settings.ALLOWED_HOSTS.extend(here)
        made = self._encryption(host) if options["https"] else None
        scheme = "https" if made else "http"
        os.umask(0o077)
        with turn("collect"):  # into the folder that all processes of a site share
            collect(settings.STATIC_ROOT)
            from weighin.wsgi import application  # whitenoise looks for the collected files when it is made
        sweep()
        with suppress(DatabaseError):  # one that takes nothing just now is still read from, and says so
            sweeping.sweep()
        begin_no_file()

        try:
            # One process with threads: a second one would make writers on SQLite wait for each other's file lock.
            site = Site(
                application,
                busy_words,
                client_behind(settings.PROXIES),
                made[1] if made else None,
                url_scheme=scheme,
                host=host,
                port=port,
                ident="weighin",
                clear_untrusted_proxy_headers=False,  # weighin.wsgi does, and knows the proxies of the settings
                max_request_body_size=LARGEST_REQUEST,
            )
        except (OSError, ValueError) as error:
            raise CommandError(
                gettext(
                    "Nothing can listen at %(named)s:%(port)s (%(getattr)s): end what uses it, or name another with --host and --port."
                )
                % {"named": named, "port": port, "getattr": getattr(error, "strerror", None) or error}
            ) from None
        signal.signal(signal.SIGTERM, _stop)
        reached = "127.0.0.1" if host in EVERY_ADDRESS else named
        self.stdout.write(
            gettext("Serving %(scheme)s://%(reached)s:%(port)s/ with %(threads)s threads. Ctrl-C ends it.")
            % {"scheme": scheme, "reached": reached, "port": port, "threads": site.threads}
        )
        if options["lan"]:
            self._show_the_way([f"{scheme}://{address}:{port}/" for address in here])
        elif host in EVERY_ADDRESS:
            self.stdout.write(
                gettext("Other devices reach it only by the names in WEIGHIN_HOSTS, or start with --lan.")
            )
        if nobody_yet():
            word = environment.first_word(settings.DATA)
            self.stdout.write(
                gettext(
                    "Nobody can sign in yet. Set up the first director at %(scheme)s://%(reached)s:%(port)s/begin/?word=%(word)s\nor write "
                    "this word on the first page: %(word)s"
                )
                % {"scheme": scheme, "reached": reached, "port": port, "word": word}
            )
        if made:
            self._show_what_is_asked(made[0], f"https://{here[0] if here else reached}:{port}")
        self.stdout.write(second_place_said())
        self.stdout.flush()
        quantiles.load()
        # What is loaded by now stays: left to the collector, it would be walked in the midst of somebody's answer.
        gc.collect()
        gc.freeze()
        gc.set_threshold(*COLLECT_AFTER)
        sys.setswitchinterval(TURN_SECONDS)
        keeper = BackupKeeper()
        keeper.start()
        letters = LetterSender()
        if mail_is_set():
            letters.start()
        try:
            site.run()
        finally:
            keeper.end()
            letters.end()
            connections.close_all()

    def _show_the_way(self, addresses: list[str]) -> None:
        """Print where phones and tablets find the site, the first address as a code too."""
        if not addresses:
            self.stdout.write(gettext("This machine is in no network: join the lake’s Wi-Fi, then start again."))
            return
        self.stdout.write(
            gettext("Phones and tablets in the same network open %(addresses)s")
            % {"addresses": Choices(tuple(addresses))}
        )
        # A terminal may know no blocks: the address stands above
        with suppress(UnicodeEncodeError):
            self.stdout.write(code(addresses[0]))

    def _encryption(self, host: str) -> tuple[LakeCertificate, Encryption]:
        """The lake's certificate, for every name and address that the site answers to, and what to encrypt with."""
        names = [name for name in settings.ALLOWED_HOSTS if not name.startswith(".") and name != "*"]
        if host not in EVERY_ADDRESS:
            names.append(host)
        try:
            made, encryption = begin_encryption(settings.DATA / "https", names)
        except (OSError, ValueError) as error:
            raise CommandError(
                gettext(
                    "The certificate in %(folder)s cannot be read or made (%(error)s): move the folder away, and one is made anew."
                )
                % {"folder": settings.DATA / "https", "error": error}
            ) from None
        # A browser that was told so would let nobody go on past a certificate that it does not know
        settings.SECURE_HSTS_SECONDS = 0
        settings.LAKE_CERTIFICATE = made
        return made, encryption

    def _show_what_is_asked(self, made: LakeCertificate, site: str) -> None:
        """Print what each browser says of the certificate, how to go on, and how to compare and trust it."""
        self.stdout.write(
            gettext(
                "Each browser asks once, since the certificate is made here and nobody else vouches for it. To go on:"
            )
        )
        for browser in BROWSERS:
            self.stdout.write(f"  {browser.name}: {browser.goes_on}")
        self.stdout.write(
            gettext(
                "The fingerprint that it shows must be (SHA-256):\n  %(own)s\n"
                "Only a device that trusts the authority can open its page again while the link is down: %(site)s/certificate/ says how.\n"
                "The authority’s fingerprint on the device must be (SHA-256):\n  %(fingerprint)s\n"
                "The certificate is good until %(until)s and renewed by itself. The authority to trust is %(file)s."
            )
            % {
                "site": site,
                "fingerprint": made.fingerprint,
                "own": made.own_fingerprint,
                "until": f"{made.until:%Y-%m-%d}",
                "file": made.authority,
            }
        )

    def _answer_to(self, host: str) -> str:
        """Add the bound host to those the site answers to (any other gets 400); its form in an address."""
        named = f"[{host}]" if ":" in host else host
        if named not in settings.ALLOWED_HOSTS and host not in EVERY_ADDRESS:
            settings.ALLOWED_HOSTS.append(named)
        return named

    def _refuse_old_database(self) -> None:
        connection = connections[DEFAULT_DB_ALIAS]
        try:
            executor = MigrationExecutor(connection)
            behind = executor.migration_plan(executor.loader.graph.leaf_nodes())
        except OperationalError as error:
            raise CommandError(
                gettext("The database cannot be opened (%(error)s): check DATABASE_URL.") % {"error": error}
            ) from None
        later = later_changes(executor.loader)
        if later:
            raise CommandError(
                gettext(
                    "The database was made by a later version of the site (%(later)s): start that version, or restore a backup that this one made."
                )
                % {"later": later[0]}
            )
        # A migration that was cut off after it had made a table anew leaves it without its triggers
        if behind or not all(is_guarded(connection, table) for table in append_only_tables()):
            raise CommandError(gettext("The database is not set up for this version: run 'manage.py migrate' first."))


def _stop(signum: int, frame: Any) -> None:
    raise SystemExit(0)
