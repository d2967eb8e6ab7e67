"""What a page says for programs, as a data block: JSON-LD, which no browser runs."""

import json
from typing import Any

from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

# So that no text ends the block (HTML, 4.12.1.3)
ESCAPES = {ord("<"): "\\u003C", ord(">"): "\\u003E", ord("&"): "\\u0026"}


def data_block(said: Any) -> SafeString:
    """``said`` as JSON-LD in a script element of that type."""
    text = json.dumps(said, ensure_ascii=False).translate(ESCAPES)
    return format_html('<script type="application/ld+json">{}</script>', mark_safe(text))  # noqa: S308 - escaped above
