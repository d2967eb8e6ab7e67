"""Small files that would unpack into much work: workbooks whose parts are written by hand."""

import io
import zipfile

BOOK = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
LINKS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
TYPES = (
    f'<Types xmlns="{PACKAGE}/content-types"><Default Extension="xml" ContentType="application/xml"/>'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Override PartName="/xl/workbook.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
)
TEXTS = (
    '<Override PartName="/xl/sharedStrings.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/>'
)
ROOT = (
    f'<Relationships xmlns="{PACKAGE}/relationships"><Relationship Id="r" Type="{LINKS}/officeDocument" '
    'Target="xl/workbook.xml"/></Relationships>'
)
ONE = '<row r="1"><c t="inlineStr"><is><t>key</t></is></c></row>'


def book(rows: str = ONE, sheets: int = 1, strings: str = "", styles: str = "") -> bytes:
    """A workbook of as many ``sheets``, all of them the same part with these ``rows``."""
    links = "".join(
        f'<Relationship Id="r{number}" Type="{LINKS}/worksheet" Target="worksheets/sheet1.xml"/>'
        for number in range(sheets)
    )
    links += f'<Relationship Id="t" Type="{LINKS}/sharedStrings" Target="sharedStrings.xml"/>' if strings else ""
    links += f'<Relationship Id="s" Type="{LINKS}/styles" Target="styles.xml"/>' if styles else ""
    named = "".join(f'<sheet name="S{n}" sheetId="{n + 1}" r:id="r{n}"/>' for n in range(sheets))
    parts = {
        "[Content_Types].xml": TYPES + (TEXTS if strings else "") + "</Types>",
        "_rels/.rels": ROOT,
        "xl/workbook.xml": f'<workbook xmlns="{BOOK}" xmlns:r="{LINKS}"><sheets>{named}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}/relationships">{links}</Relationships>',
        "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{BOOK}"><sheetData>{rows}</sheetData></worksheet>',
    }
    if strings:
        parts["xl/sharedStrings.xml"] = f'<sst xmlns="{BOOK}">{strings}</sst>'
    if styles:
        parts["xl/styles.xml"] = f'<styleSheet xmlns="{BOOK}">{styles}</styleSheet>'
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return out.getvalue()


def inline(text: str) -> str:
    return f'<row r="1"><c t="inlineStr"><is><t>{text}</t></is></c></row>'


BOMBS = {
    "cells": lambda: book("<row>" + "<c><v>1</v></c>" * 1_500_000 + "</row>"),
    "empty cells": lambda: book(("<row>" + "<c/>" * 100 + "</row>") * 40_000),
    "rows": lambda: book("<row/>" * 3_500_000),
    "a far row on every sheet": lambda: book(ONE + '<row r="90000"><c><v>1</v></c></row>', sheets=40),
    "sheets": lambda: book(sheets=10_000),
    "strings": lambda: book(strings="<si><t>a</t></si>" * 1_000_000),
    "styles": lambda: book(styles="<cellXfs>" + "<xf/>" * 500_000 + "</cellXfs>"),
    "a long text": lambda: book(inline("a" * 30_000_000)),
    "runs of one text": lambda: book("<row><c><is>" + "<r><t>a</t></r>" * 1_000_000 + "</is></c></row>"),
    "spaces": lambda: book(" " * 100_000_000),
    "deep": lambda: book("<a>" * 200_000),
}
