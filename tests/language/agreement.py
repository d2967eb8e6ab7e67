"""What a translation must have in common with its text: what stands in it by name, its tags, and the spaces at its ends."""

import re
from collections import Counter
from collections.abc import Iterator

from language.po import Entry

NAMED = re.compile(r"(%\(\w+\)[sd]|\{\w*\}|%%)")
TAG = re.compile(r"<[^<>]+>")
COUNTED = {"%(n)s", "%(counter)s", "%(count)s"}  # may be said in a word where it is 1
FORMS = 2  # one, and several


def faults(entry: Entry) -> list[str]:
    """What is wrong with the translation of an entry, in words; empty where nothing is."""
    if "fuzzy" in entry.flags:
        return ["it is marked as fuzzy"]
    wanted = FORMS if entry.plural else 1
    if set(entry.said) != set(range(wanted)) or not all(entry.said.values()):
        return [f"it wants {wanted} translations"]
    return [wrong for form, said in entry.said.items() for wrong in _wrong(entry, form, said)]


def _wrong(entry: Entry, form: int, said: str) -> Iterator[str]:
    text = entry.plural if entry.plural and form else entry.text
    known = _named(entry.text) | _named(entry.plural)
    here = _named(said)
    missing = _named(text) - here - (COUNTED if entry.plural and not form else set())
    if here - known or missing:
        yield f"form {form} has other names in it: {sorted(here)}, not {sorted(_named(text))}"
    elif entry.plural == "" and Counter(NAMED.findall(said)) != Counter(NAMED.findall(text)):
        yield "a name stands in it more or less often"
    if "%" in NAMED.sub("", said) and "%" not in NAMED.sub("", text):
        yield f"form {form} has a bare per cent sign"
    if Counter(TAG.findall(said)) != Counter(TAG.findall(text)):
        yield f"form {form} has other tags: {TAG.findall(said)}, not {TAG.findall(text)}"
    if _ends(said) != _ends(text):
        yield f"form {form} has other spaces or line breaks at its ends"


def _named(text: str) -> set[str]:
    return set(NAMED.findall(text))


def _ends(text: str) -> tuple[str, str]:
    bare = text.strip(" \n")
    return text[: text.find(bare)], text[text.find(bare) + len(bare) :]
