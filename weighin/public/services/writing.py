"""Write files into a folder of their own: what changed alone, and nothing that somebody else put there."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from weighin.public.domain.faults import FOLDER_NOT_OURS, FOLDER_OF_ANOTHER, IN_THE_WAY, NO_FOLDER
from weighin.rules.faults import Faults

LIST = ".weighin-files.json"  # what was written here, by path, with the SHA-256 of each


@dataclass(frozen=True)
class Written:
    """How many files the folder has by now, and what was done to them; ``left`` were changed by somebody else since."""

    files: int
    changed: int
    removed: int
    left: tuple[str, ...] = ()


def write_files(folder: Path, of: str, files: Mapping[str, bytes]) -> Written:
    """Make the folder hold these ``files`` of the club ``of``. Raises Faults, before anything is written."""
    known = _known(folder, of)
    blocked = [path for path in files if not _is_free(folder, path, known)]
    if blocked:
        raise Faults([IN_THE_WAY.at("", folder=str(folder), paths=", ".join(sorted(blocked)[:5]))])
    digests = {path: sha256(body).hexdigest() for path, body in files.items()}
    folder.mkdir(parents=True, exist_ok=True)
    _keep_list(folder, of, known | digests)  # a run that breaks off knows its files the next time
    changed = [path for path, body in files.items() if _write(folder / path, body)]
    gone = {path: digest for path, digest in known.items() if path not in files and (folder / path).is_file()}
    left = tuple(path for path, digest in gone.items() if sha256((folder / path).read_bytes()).hexdigest() != digest)
    for path in gone:
        if path not in left:
            _remove(folder, path)
    _keep_list(folder, of, digests)
    return Written(len(files), len(changed), len(gone) - len(left), left)


def _known(folder: Path, of: str) -> dict[str, str]:
    """What was written there before. Raises Faults for a folder that is not ours."""
    if not folder.exists():
        return {}
    if not folder.is_dir():
        raise Faults([NO_FOLDER.at("", folder=str(folder))])
    listed = folder / LIST
    if not listed.is_file():
        if any(folder.iterdir()):
            raise Faults([FOLDER_NOT_OURS.at("", folder=str(folder))])
        return {}
    try:
        told: dict[str, Any] = json.loads(listed.read_text(encoding="utf-8"))
        club, files = told["club"], {str(path): str(digest) for path, digest in told["files"].items()}
    except (ValueError, KeyError, TypeError, AttributeError):
        raise Faults([FOLDER_NOT_OURS.at("", folder=str(folder))]) from None
    if club != of:
        raise Faults([FOLDER_OF_ANOTHER.at("", folder=str(folder), club=club)])
    return {path: digest for path, digest in files.items() if _is_inside(folder, path)}


def _is_inside(folder: Path, path: str) -> bool:
    """Whether the path stays in the folder, links followed."""
    return (folder / path).resolve().is_relative_to(folder.resolve())


def _is_free(folder: Path, path: str, known: Mapping[str, str]) -> bool:
    where = folder / path
    return _is_inside(folder, path) and not where.is_dir() and (path in known or not where.exists())


def _write(where: Path, body: bytes) -> bool:
    """Whether the file had to be written; readers see the old one or the new one, never half of it."""
    if where.is_file() and where.read_bytes() == body:
        return False
    where.parent.mkdir(parents=True, exist_ok=True)
    new = where.with_name(f"{where.name}.new")
    new.write_bytes(body)
    new.replace(where)
    return True


def _remove(folder: Path, path: str) -> None:
    where = folder / path
    where.unlink()
    for parent in where.parents:
        if parent == folder or any(parent.iterdir()):
            return
        parent.rmdir()


def _keep_list(folder: Path, of: str, digests: Mapping[str, str]) -> None:
    told = {"club": of, "files": dict(sorted(digests.items()))}
    _write(folder / LIST, f"{json.dumps(told, indent=1)}\n".encode())
