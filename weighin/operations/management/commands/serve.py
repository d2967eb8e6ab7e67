"""The production server."""

import signal
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

THREADS = 8


class Command(BaseCommand):
    help = "Serve the site, static files included, until SIGTERM or Ctrl-C."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--host", default="127.0.0.1", help="the address to listen at (default 127.0.0.1)")
        parser.add_argument("--port", type=int, default=8000, help="the port (default 8000)")

    def handle(self, *args: Any, **options: Any) -> None:
        # waitress and the WSGI application are loaded here so that other commands stay quick.
        import waitress

        from weighin.wsgi import application

        host, port = options["host"], options["port"]
        if not 1 <= port <= 65535:
            raise CommandError(f"--port {port} is no port: write a number from 1 to 65535.")
        # The site answers the name it is bound to, localhost and WEIGHIN_HOSTS; any other Host gets 400.
        named = f"[{host}]" if ":" in host else host
        if named not in settings.ALLOWED_HOSTS:
            settings.ALLOWED_HOSTS.append(named)
        try:
            server = waitress.create_server(
                application, host=host, port=port, threads=THREADS, ident="weighin", clear_untrusted_proxy_headers=True
            )
        except OSError as error:
            raise CommandError(
                f"{host}:{port} cannot be used ({error.strerror or error}): name another with --port."
            ) from None

        def stop(signum: int, frame: Any) -> None:
            raise SystemExit(0)

        signal.signal(signal.SIGTERM, stop)
        self.stdout.write(f"Serving http://{named}:{port}/ with {THREADS} threads.")
        self.stdout.flush()
        try:
            server.run()
        except (SystemExit, KeyboardInterrupt):
            pass
        finally:
            server.close()
