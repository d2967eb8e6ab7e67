"""Give a file that a command wrote: to a name, or to the standard output."""

import sys
from pathlib import Path

from django.core.management.base import CommandError, OutputWrapper
from django.utils.translation import gettext

TEXTS = ("json", "csv")


def give(content: bytes, form: str, out: Path | None, stdout: OutputWrapper, words: OutputWrapper) -> bool:
    """Write a file of this form to ``out``, and say so to ``words``; without ``out`` to ``stdout``. Whether it has a name.

    Raises CommandError where it cannot be written.
    """
    if out is None:
        if form in TEXTS:
            stdout.write(content.decode(), ending="")
        else:
            sys.stdout.buffer.write(content)
        return False
    try:
        out.write_bytes(content)
    except OSError as error:
        raise CommandError(
            gettext("%(file)s cannot be written (%(strerror)s): name another file.")
            % {"file": out, "strerror": error.strerror}
        ) from None
    words.write(gettext("Wrote %(file)s (%(size)s bytes).") % {"file": out, "size": f"{len(content):,}"})
    return True
