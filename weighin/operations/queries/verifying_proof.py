"""What a proof that somebody has as a file is found to be: its digest, its result worked out again, and what is kept here."""

from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any

from django.utils.translation import gettext, ngettext

from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.operations.queries.ledgers import ledger_of
from weighin.operations.queries.verifying import NoResult, Verdict, read_bytes
from weighin.proof.parsing.proof_file import NoProof, proof_from
from weighin.proof.queries.document import proof_document, slip_row
from weighin.proof.queries.recomputed import Recomputed, differences, recomputed, unlike_rows
from weighin.proof.queries.result import without_texts
from weighin.slips.queries.ledger import link_at
from weighin.slips.queries.slips import ledger_head, slips
from weighin.standings.models import OfficialResult

# Of a proof: the lists that an event's present state has too, with what names a row
LISTS = (("teams", "boat"), ("side_pots", "name"))


@dataclass(frozen=True)
class ProofVerdict:
    """Three things apart: the file by itself, and ``kept``, what this site has of it."""

    alone: Recomputed
    kept: Verdict

    @property
    def faults(self) -> tuple[str, ...]:
        """All that does not agree; empty when all does."""
        return (*(() if self.alone.digest_holds else (self.digest_said,)), *self.alone.differs, *self.kept.faults)

    @property
    def digest_said(self) -> str:
        if self.alone.digest_holds:
            return gettext("The digest is that of the file.")
        return gettext("The file was altered after it was made: its digest is another.")

    @property
    def alone_said(self) -> str:
        if self.alone.differs:
            return gettext("Worked out again from the file alone, this is otherwise:")
        return gettext("Worked out again from the file alone: every place, weight, prize and point is the same.")


def verify_proof_file(file: Path) -> ProofVerdict | None:
    """Hold a proof against itself, the slips and the official results kept here, whose ledgers are walked; None for a file
    of another form.

    Raises NoResult for a file that cannot be read, or that says it is a proof and is none.
    """
    proof = read_proof_file(read_bytes(file), file.name)
    if proof is None:
        return None
    event = Event.objects.filter(slug=proof["event"]["slug"]).first()
    if event is None:
        said = gettext("The event %(slug)s is not kept here: ask the site that published it.")
        missing = Verdict(said % {"slug": proof["event"]["slug"][:60]}, (gettext("this site does not have the event"),))
        return ProofVerdict(recomputed(proof), missing)
    found = verify_proof(proof, file.name, event)
    return replace(found, kept=replace(found.kept, broken=ledger_of(event).faults))


def read_proof_file(text: bytes, name: str) -> dict[str, Any] | None:
    """The proof that a text holds; None for another form. Raises NoResult as ``proof_from`` raises NoProof."""
    try:
        return proof_from(text, name)
    except NoProof as refused:
        raise NoResult(str(refused)) from None


def verify_proof(proof: dict[str, Any], name: str, event: Event, as_of: datetime | None = None) -> ProofVerdict:
    """Hold a proof against itself and against what is kept of its event, or was ``as_of`` then; nothing is walked."""
    return ProofVerdict(recomputed(proof), kept_of(proof, name, event, as_of))


def kept_of(proof: dict[str, Any], name: str, event: Event, as_of: datetime | None = None) -> Verdict:
    """The proof beside the slips that are kept and the official version that it names.

    Where the event still stands as the proof says, every part is held against it; else the slips and that version.
    """
    said = {"file": name, "event": event.name, "version": proof["result"].get("version")}
    otherwise = gettext("%(file)s does not agree with what is kept of %(event)s.") % said
    length, head = proof["ledger"]["length"], proof["ledger"].get("head")
    most, _ = ledger_head(event, as_of)
    if length and (length > most or link_at(event, length) != head):
        return Verdict(otherwise, (gettext("it was made from other slips than those that are kept"),))
    differs = _slips(proof, event, length)
    now = proof_document(event) if as_of is None and length == most else None
    version = said["version"]
    if version is None:
        if now is not None:
            differs += _state(proof, now)
        finding = _naming_none(now, event, as_of) % said
    else:
        official = OfficialResult.objects.filter(event=event, version=version).first() if type(version) is int else None
        if official is None:
            differs.append(gettext("there is no official result %(version)s") % said)
        else:
            differs += _official(proof, official)
            if now is not None and now["result"]["version"] == version:
                differs += [line for line in _state(proof, now) if line not in differs]
        finding = gettext("%(file)s is official result %(version)s of %(event)s.") % said
    more = most - length
    later = ngettext("%(n)s slip was kept since.", "%(n)s slips were kept since.", more) % {"n": more} if more else ""
    return Verdict(otherwise if differs else finding, tuple(differs), beside=(later,) if later else ())


def _naming_none(now: dict[str, Any] | None, event: Event, as_of: datetime | None) -> str:
    """The sentence about a proof that names no official version: there may be one from before it, or of it since."""
    published = OfficialResult.objects.filter(event=event)
    newest = (published if as_of is None else published.filter(published_at__lte=as_of)).first()
    if newest is None:
        return gettext("%(file)s fits the slips that are kept. No official result yet.")
    if now is not None and now["result"]["version"] == newest.version:
        return gettext("%(file)s says what the newest official result of %(event)s says, and was made before it.")
    return gettext("%(file)s fits the slips that are kept, and is no official result of %(event)s: there is another.")


def _slips(proof: dict[str, Any], event: Event, length: int) -> list[str]:
    """Slips of the file that are kept otherwise, or not among the first ``length``."""
    calendar, here = calendar_of(event), gettext("here")
    kept = [slip_row(slip, calendar, event.weight_unit) for slip in slips(event).filter(position__lte=length)]
    told = {str(row.get("slip")) for row in proof["slips"] if isinstance(row, dict)}
    mine = [row for row in kept if str(row["slip"]) in told]
    return unlike_rows(proof["slips"], mine, "slip", gettext("slip %(number)s"), here)


def _state(proof: dict[str, Any], now: dict[str, Any]) -> list[str]:
    """What is otherwise in the event as it stands."""
    here = gettext("here")
    found = []
    for part, called in (("event", gettext("the event")), ("rules", gettext("the rule sheet"))):
        found += unlike_rows(
            [{"number": called, **proof[part]}], [{"number": called, **now[part]}], "number", "%(number)s", here
        )
    for part, number in LISTS:
        words = gettext("team of boat %(number)s") if part == "teams" else gettext("side pot %(number)s")
        found += unlike_rows(proof[part], now[part], number, words, here)
    for part, called in (
        ("flights", gettext("the flights")),
        ("checkins", gettext("the check-ins")),
        ("slips", gettext("which slips count")),
    ):
        if part == "slips":
            same = [row.get("slip") for row in proof[part] if isinstance(row, dict)] == [
                row["slip"] for row in now[part]
            ]
        else:
            same = proof[part] == now[part]
        found += [] if same else [gettext("%(part)s: others than here") % {"part": called}]
    return found + differences(proof["result"], now["result"], here)


def _official(proof: dict[str, Any], official: OfficialResult) -> list[str]:
    """Where the proof says otherwise than the official version that it names."""
    where = gettext("in official result %(version)s") % {"version": official.version}
    document = official.document
    found = []
    if (official.ledger_length, official.ledger_head) != (proof["ledger"]["length"], proof["ledger"].get("head")):
        found.append(gettext("official result %(version)s was made from other slips") % {"version": official.version})
    rules = {name: "none" if text is None else text for name, text in proof["rules"].items()}
    mine = {name: text for name, text in document["rules"].items() if name in rules}
    called = gettext("the rule sheet")
    found += unlike_rows([{"number": called, **rules}], [{"number": called, **mine}], "number", "%(number)s", where)
    kept = {"standings": without_texts(document["standings"]), "purse": document["purse"], "side_pots": []}
    return found + differences({**proof["result"], "side_pots": []}, kept, where)
