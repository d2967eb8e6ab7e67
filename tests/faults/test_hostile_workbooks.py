"""Files that are no plain workbook: each gets one clear line, never a traceback, and leaves nothing behind."""

import io
import struct
import zipfile
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from openpyxl import Workbook

from weighin.clubs.models import Club
from weighin.events.models import Event

pytestmark = pytest.mark.django_db


def plain_book() -> bytes:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Event"
    rows = (("key", "value"), ("club", "Pen Mill"), ("season", "2026"), ("event", "First"), ("water", "Mere"))
    for row in (*rows, ("date", "2026-06-20"), ("weight_unit", "lb")):
        sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def changed(change: Callable[[str, bytes], bytes], **more: bytes) -> bytes:
    """The plain workbook with its parts put through ``change`` and further parts added."""
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(plain_book())) as old,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for part in old.infolist():
            new.writestr(part.filename, change(part.filename, old.read(part)))
        for name, content in more.items():
            new.writestr(name.replace("__", "/"), content)
    return out.getvalue()


def same(name: str, content: bytes) -> bytes:
    return content


def with_entity(name: str, content: bytes) -> bytes:
    if not name.startswith("xl/worksheets/"):
        return content
    head, _, rest = content.partition(b"?>") if content.startswith(b"<?xml") else (b"", b"", content)
    start = head + b"?>" if head else b""
    return start + b'<!DOCTYPE x [<!ENTITY file SYSTEM "file:///etc/hostname">]>' + rest


def with_entity_in_utf16(name: str, content: bytes) -> bytes:
    if not name.startswith("xl/worksheets/"):
        return content
    text = (
        '<?xml version="1.0" encoding="UTF-16"?><!DOCTYPE x [<!ENTITY a "aaaa">]>' + content.decode().partition("?>")[2]
    )
    return text.encode("utf-16")


def with_macros(name: str, content: bytes) -> bytes:
    return (
        content.replace(b"sheet.main+xml", b"sheet.macroEnabled.main+xml") if name == "[Content_Types].xml" else content
    )


def cut_off(name: str, content: bytes) -> bytes:
    return content[: len(content) // 2] if name.startswith("xl/worksheets/") else content


def bomb() -> bytes:
    """More megabytes than any workbook unpacks to of spaces in one sheet, a few hundred kilobytes packed."""
    return changed(lambda name, content: b" " * 160_000_000 if name.startswith("xl/worksheets/") else content)


def lying_size() -> bytes:
    """A bomb whose directory says that its sheet is a few bytes long."""
    packed = bytearray(
        changed(lambda name, content: b" " * 60_000_000 if name.startswith("xl/worksheets/") else content)
    )
    size = struct.pack("<I", 60_000_000)
    at = packed.find(size)
    while at != -1:
        packed[at : at + 4] = struct.pack("<I", 100)
        at = packed.find(size, at + 4)
    return bytes(packed)


HOSTILE = {
    "empty.xlsx": b"",
    "text.xlsx": b"boat,team\n1,Ash and Birch\n",
    "cut.xlsx": plain_book()[:900],
    "zeros.xlsx": bytes(4096),
    "other-zip.xlsx": changed(same)[:0] or zlib.compress(b"no archive"),
    "part-cut.xlsx": changed(cut_off),
    "entity.xlsx": changed(with_entity),
    "entity-utf16.xlsx": changed(with_entity_in_utf16),
    "macros.xlsx": changed(with_macros),
    "vba.xlsx": changed(same, xl__vbaProject_bin=b"", **{"xl__vbaProject.bin": b"\x00\x01"}),
    "many-parts.xlsx": changed(same, **{f"xl__extra{n}.xml": b"<x/>" for n in range(2500)}),
    "large.xlsx": plain_book() + bytes(10 * 1024 * 1024),
}


@pytest.mark.parametrize("name", sorted(HOSTILE))
@pytest.mark.parametrize("check", [True, False])
def test_a_hostile_file_gets_one_line_and_leaves_nothing(name: str, check: bool, tmp_path: Path) -> None:
    file = tmp_path / name
    file.write_bytes(HOSTILE[name])
    with pytest.raises(CommandError) as refused:
        call_command("import_event", file, check=check)
    said = str(refused.value)
    assert name in said and "\n" not in said and len(said) < 250
    assert not Club.objects.exists() and not Event.objects.exists()


@pytest.mark.parametrize("make", [bomb, lying_size])
def test_a_bomb_is_not_unpacked(make: Callable[[], bytes], tmp_path: Path) -> None:
    file = tmp_path / "bomb.xlsx"
    file.write_bytes(make())
    with pytest.raises(CommandError, match=r"unpacks|broken"):
        call_command("import_event", file, check=True)


@pytest.mark.parametrize("name", ["event.xlsm", "event.csv", "event.xls", "event"])
def test_other_kinds_of_file_are_named(name: str, tmp_path: Path) -> None:
    file = tmp_path / name
    file.write_bytes(plain_book())
    with pytest.raises(CommandError, match=r"save it as \.xlsx"):
        call_command("import_event", file)


def test_a_missing_file_and_a_folder(tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="cannot be found"):
        call_command("import_event", tmp_path / "nowhere.xlsx")
    (tmp_path / "folder.xlsx").mkdir()
    with pytest.raises(CommandError, match=r"folder\.xlsx"):
        call_command("import_event", tmp_path / "folder.xlsx")


def test_too_many_rows(tmp_path: Path) -> None:
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Slips")
    for number in range(20_002):
        sheet.append([number])
    book.save(tmp_path / "long.xlsx")
    with pytest.raises(CommandError, match="20,000 rows"):
        call_command("import_event", tmp_path / "long.xlsx", check=True)


def test_a_cell_far_out_costs_nothing(tmp_path: Path) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Event"
    sheet["A1"], sheet["B1"] = "key", "value"
    sheet["XFD1048576"] = "far"
    book.save(tmp_path / "far.xlsx")
    with pytest.raises(CommandError, match="empty rows"):
        call_command("import_event", tmp_path / "far.xlsx", check=True)
