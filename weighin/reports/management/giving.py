"""Give files that a command wrote: to a name, into a folder, or to the standard output."""

import os
import shutil
import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from django.core.management.base import CommandError, OutputWrapper
from django.utils.translation import gettext

TEXTS = ("json", "csv")


def give(content: bytes, form: str, out: Path | None, stdout: OutputWrapper, words: OutputWrapper) -> bool:
    """Write a file of this form to ``out``, and say so to ``words``; without ``out`` to ``stdout``. Whether it has a name.

    Raises CommandError where it cannot be written; what stood there before then stands there still.
    """
    if out is None:
        if form in TEXTS:
            stdout.write(content.decode(), ending="")
        else:
            sys.stdout.buffer.write(content)
        return False
    _write({out: content}, words)
    return True


def give_folder(files: Mapping[str, bytes], folder: Path, words: OutputWrapper) -> None:
    """Write the files by their names into a folder, which is made where it is not there: all of them, or none.

    Raises CommandError where the folder cannot be made or a file cannot be written.
    """
    new = not folder.exists()
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise CommandError(
            gettext("The folder %(out)s cannot be made (%(strerror)s): name another one.")
            % {"out": folder, "strerror": error.strerror}
        ) from None
    try:
        _write({folder / name: content for name, content in files.items()}, words)
    except CommandError:
        if new:
            folder.rmdir()
        raise


def _write(files: Mapping[Path, bytes], words: OutputWrapper) -> None:
    """Write beside each name first, and put all in place once every one is whole: a full disk leaves nothing half written."""
    beside: dict[Path, Path] = {}
    try:
        for out, content in files.items():
            where = out.resolve()
            if where.exists() and not where.is_file():
                where.write_bytes(content)  # a pipe or a device; a folder refuses
                continue
            new = where.with_name(f".{where.name}.{os.getpid()}.new")
            beside[new] = where
            new.write_bytes(content)
            if where.exists():
                shutil.copymode(where, new)
        for new, where in beside.items():
            new.replace(where)
    except OSError as error:
        for new in beside:
            with suppress(OSError):
                new.unlink()
        raise CommandError(
            gettext("%(file)s cannot be written (%(strerror)s): name another file.")
            % {"file": out, "strerror": error.strerror}
        ) from None
    for out, content in files.items():
        words.write(gettext("Wrote %(file)s (%(size)s bytes).") % {"file": out, "size": f"{len(content):,}"})
