"""An address as a QR code in SVG, without style attributes, as the content policy asks."""

import segno
from django.utils.safestring import SafeString, mark_safe

ONLY_HERE = ("localhost", "127.0.0.1", "[::1]")
QUIET = 4  # modules of white around the code, as ISO/IEC 18004 asks


def code(address: str, words: str) -> SafeString:
    """The code of ``address``, black on white whatever the light of the page; ``words`` name it for screen readers."""
    drawn = segno.make(address, error="m", micro=False).svg_inline(
        scale=1, border=QUIET, dark="#000", light="#fff", omitsize=True, title=words, svgclass="code", lineclass=None
    )
    return mark_safe(drawn)  # noqa: S308 - segno escapes the title; the rest is its own drawing


def opens_only_here(host: str) -> bool:
    """Whether an address with ``host`` (a request's, with or without its port) opens on this machine alone."""
    return (host if host.endswith("]") else host.rsplit(":", 1)[0]) in ONLY_HERE
