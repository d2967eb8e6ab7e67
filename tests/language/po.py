"""A catalogue as its file has it, and what gettext reads of it: so that a machine without GNU gettext can hold and make both.

``python tests/language/po.py`` makes each ``.mo`` under ``weighin/locale`` of its ``.po``.
"""

import ast
import re
import struct
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

LOCALE = Path(__file__).resolve().parents[2] / "weighin" / "locale"
WORD = re.compile(r'^(msgctxt|msgid_plural|msgid|msgstr(?:\[(\d)\])?)?\s*("(?:[^"\\]|\\.)*")\s*$')
MO_MAGIC, MO_HEAD = 0x950412DE, 28  # GNU gettext manual, "The Format of GNU MO Files"


@dataclass
class Entry:
    """A text with its translations: one, or as many as the language has forms."""

    context: str = ""
    text: str = ""
    plural: str = ""
    said: dict[int, str] = field(default_factory=dict)
    flags: frozenset[str] = frozenset()
    comments: list[str] = field(default_factory=list)

    @property
    def key(self) -> tuple[str, str, str]:
        return self.context, self.text, self.plural

    @property
    def is_said(self) -> bool:
        return "fuzzy" not in self.flags and all(self.said.get(form) for form in range(2 if self.plural else 1))


def entries(text: str) -> Iterator[Entry]:
    """Every entry of a ``.po``, its head (the empty text) first; what is obsolete is passed over."""
    for block in re.split(r"\n[ \t]*\n", text.replace("\r\n", "\n")):
        entry = _entry(block)
        if entry is not None:
            yield entry


def _entry(block: str) -> Entry | None:
    entry, found = Entry(), dict[str, str]()
    name = ""
    for line in block.strip().split("\n"):
        if line.startswith("#"):
            if line.startswith("#,"):
                entry.flags |= {flag.strip() for flag in line[2:].split(",")}
            elif not line.startswith("#~"):
                entry.comments.append(line)
            continue
        word = WORD.match(line)
        if word is None:
            if line.strip():
                raise ValueError(f"not a line of a catalogue: {line}")
            continue
        name = word[1] or name
        found[name] = found.get(name, "") + ast.literal_eval(word[3])
    if "msgid" not in found:
        return None
    entry.context, entry.text, entry.plural = (found.get(n, "") for n in ("msgctxt", "msgid", "msgid_plural"))
    for name, said in found.items():
        if name.startswith("msgstr"):
            entry.said[int(name[7:-1]) if "[" in name else 0] = said
    return entry


def compiled(found: Iterable[Entry]) -> bytes:
    """The ``.mo``: every text with its translation, sorted; what is fuzzy or not said is left out."""
    said = {}
    for entry in found:
        if entry.is_said or not entry.text:
            key = f"{entry.context}\4{entry.text}" if entry.context else entry.text
            key += f"\0{entry.plural}" if entry.plural else ""
            said[key.encode()] = "\0".join(entry.said[form] for form in sorted(entry.said)).encode()
    keys = sorted(said)
    ids, texts = [b"".join(part + b"\0" for part in parts) for parts in (keys, [said[key] for key in keys])]
    start = MO_HEAD + 16 * len(keys)
    table = b"".join(_placed(keys, start) + _placed([said[key] for key in keys], start + len(ids)))
    head = struct.pack("<7I", MO_MAGIC, 0, len(keys), MO_HEAD, MO_HEAD + 8 * len(keys), 0, start)
    return head + table + ids + texts


def written(found: Iterable[Entry]) -> str:
    """The ``.po`` of these entries."""
    return "\n".join("\n".join(_lines(entry)) + "\n" for entry in found)


def _lines(entry: Entry) -> Iterator[str]:
    yield from entry.comments
    if entry.flags:
        yield f"#, {', '.join(sorted(entry.flags))}"
    if entry.context:
        yield f"msgctxt {_quoted(entry.context)}"
    yield f"msgid {_quoted(entry.text)}"
    if entry.plural:
        yield f"msgid_plural {_quoted(entry.plural)}"
    for form in range(2 if entry.plural else 1):
        yield f"msgstr{f'[{form}]' if entry.plural else ''} {_quoted(entry.said.get(form, ''))}"


def _quoted(text: str) -> str:
    signs = text.replace("\\", "\\\\").replace('"', '\\"').replace("\t", "\\t")
    lines = signs.split("\n")
    if len(lines) == 1:
        return f'"{signs}"'
    whole = [*(f"{line}\\n" for line in lines[:-1]), *filter(None, lines[-1:])]
    return "\n".join(['""', *(f'"{line}"' for line in whole)])


def _placed(parts: list[bytes], start: int) -> list[bytes]:
    placed = []
    for part in parts:
        placed.append(struct.pack("<2I", len(part), start))
        start += len(part) + 1
    return placed


def main() -> None:
    for catalogue in sorted(LOCALE.glob("*/LC_MESSAGES/*.po")):
        catalogue.with_suffix(".mo").write_bytes(compiled(entries(catalogue.read_text(encoding="utf-8"))))


if __name__ == "__main__":
    main()
