"""Keep a club's rule sheets: a new one, and the next version of one."""

from collections.abc import Mapping

from django.utils import timezone

from weighin.audit.domain.changes import changes, in_words
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Club
from weighin.clubs.services.clubs import RESERVED, free_slug
from weighin.events.domain.faults import SHEET_CHANGED_MEANWHILE, SHEET_TAKEN, SHEET_WITHOUT_NAME
from weighin.events.models import ClubSheet, SheetVersion
from weighin.events.queries.club_sheets import newest
from weighin.rules import rulebook
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.rules.look_alikes import name_line
from weighin.rules.values import line

LONGEST_NAME, LONGEST_REASON = 80, 200
TAKEN_ADDRESSES = frozenset({*RESERVED, "compare"})


def make_sheet(club: Club, name: str, unit: str, written: Mapping[str, str], by: str, reason: str = "") -> SheetVersion:
    """Keep a sheet of the club as version 1; a blank value is the key's default. Raises Faults: ``name`` and keys."""
    with writing():
        Club.objects.select_for_update().get(pk=club.pk)
        after = _read(club, name, unit, written, reason)
        taken = club.sheets.values_list("slug", flat=True)
        sheet = ClubSheet.objects.create(
            club=club,
            name=_spaced(name),
            slug=free_slug(name, "sheet", 70, {*taken, *TAKEN_ADDRESSES}),
            weight_unit=unit,
        )
        version = _keep(sheet, 1, after, reason, by)
        log_history(
            by, "sheet.made", f"Rule sheet {sheet.name} made", club_id=club.pk, subject=sheet.name,
            details={"version": 1, "unit": unit, "written": after},
        )  # fmt: skip
    return version


def change_sheet(
    sheet: ClubSheet, name: str, written: Mapping[str, str], by: str, seen: int, reason: str = ""
) -> SheetVersion:
    """Rename a sheet and keep its next version where a rule changed; ``seen`` is the version that was written on.

    What was copied into events stays as it was. Raises Faults: ``name``, keys, and when another version came meanwhile.
    """
    with writing():
        held = ClubSheet.objects.select_for_update(of=("self",)).select_related("club").get(pk=sheet.pk)
        version = newest(held)
        if version.number != seen:
            raise Faults([SHEET_CHANGED_MEANWHILE.at("", version=version.number)])
        after = _read(held.club, name, held.weight_unit, written, reason, besides=held)
        before, held.name = held.name, _spaced(name)
        renamed = {"name": [before, held.name]} if before != held.name else {}
        found = changes(version.written, after)
        if renamed:
            held.save(update_fields=["name"])
        if found:
            version = _keep(held, seen + 1, after, reason, by)
        if renamed or found:
            log_history(
                by, "sheet.changed", f"Rule sheet {before}, version {version.number}: {in_words({**renamed, **found})}",
                club_id=held.club_id, subject=held.name,
                details={"version": version.number, "changed": {**renamed, **found}, "reason": version.reason},
            )  # fmt: skip
    return version


def retire_sheet(sheet: ClubSheet, by: str, retired: bool = True) -> None:
    """Offer a sheet no more, or (``retired`` False) again. It stays readable, and copies of it in events stay."""
    with writing():
        held = ClubSheet.objects.select_for_update(of=("self",)).get(pk=sheet.pk)
        if (held.retired_at is not None) == retired:
            return
        held.retired_at = timezone.now() if retired else None
        held.save(update_fields=["retired_at"])
        act = "retired" if retired else "restored"
        log_history(by, f"sheet.{act}", f"Rule sheet {held.name} {act}", club_id=held.club_id, subject=held.name)


def _read(
    club: Club, name: str, unit: str, written: Mapping[str, str], reason: str, besides: ClubSheet | None = None
) -> dict[str, str]:
    faults = _name_faults(club, name, besides)
    try:
        line(reason, LONGEST_REASON)
    except Wrong as error:
        faults.append(error.at("reason"))
    rules, wrong = rulebook.read_what_can_be(written, unit)
    if faults or wrong:
        raise Faults([*faults, *wrong])
    return rules.written()


def _name_faults(club: Club, name: str, besides: ClubSheet | None) -> list[Fault]:
    try:
        if not name_line(name, LONGEST_NAME):
            return [SHEET_WITHOUT_NAME.at("name")]
    except Wrong as error:
        return [error.at("name")]
    others = club.sheets.exclude(pk=besides.pk) if besides else club.sheets.all()
    if others.filter(name__iexact=_spaced(name)).exists():
        return [SHEET_TAKEN.at("name", club=str(club), name=_spaced(name))]
    return []


def _keep(sheet: ClubSheet, number: int, written: dict[str, str], reason: str, by: str) -> SheetVersion:
    return SheetVersion.objects.create(sheet=sheet, number=number, written=written, reason=_spaced(reason), kept_by=by)


def _spaced(text: str) -> str:
    return " ".join(text.split())
