"""What ``serve --https`` encrypts with, renewed while the server runs."""

import logging
import ssl
import threading
from collections.abc import Sequence
from pathlib import Path

from django.utils.translation import gettext

from weighin.operations.services.certificates import LakeCertificate, lake_certificate
from weighin.serving.encrypted import Encryption, context_of

LOG = logging.getLogger(__name__)
LOOK_SECONDS = 12 * 60 * 60.0


def begin_encryption(folder: Path, names: Sequence[str]) -> tuple[LakeCertificate, Encryption]:
    """The lake's certificate for these names and addresses, and a site's encryption with it, looked at twice a day.

    Raises OSError and ValueError when it cannot be made or read.
    """
    made = lake_certificate(folder, names)
    context = context_of(made.chain, made.key)
    threading.Thread(target=_renew, args=(context, folder, names), name="certificate", daemon=True).start()
    return made, Encryption(context, _words)


def _renew(context: ssl.SSLContext, folder: Path, names: Sequence[str]) -> None:
    ended = threading.Event()
    while not ended.wait(LOOK_SECONDS):
        try:
            made = lake_certificate(folder, names)
            context.load_cert_chain(made.chain, made.key)
        except (OSError, ValueError) as fault:
            LOG.error("The lake's certificate could not be renewed: %s", fault)


def _words(address: str) -> str:
    if address:
        return gettext("This site speaks https. Open %(address)s") % {"address": address} + "\n"
    return gettext("This site speaks https: write https:// before its address.") + "\n"
