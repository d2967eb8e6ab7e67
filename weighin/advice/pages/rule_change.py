"""What the page of a change of rules shows before it is saved."""

from typing import Any

from weighin.advice.pages.what_if import event_rows, title
from weighin.advice.queries.replay import SeasonReplay
from weighin.advice.queries.rule_change import Preview
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheets.compared import differing_sections


def preview_shown(now: Rulebook, rules: Rulebook, found: Preview) -> dict[str, Any]:
    """Who would move, the rules that change, and what stands in the way."""
    return {
        "title": title(SeasonReplay([found.replay], None)),
        "moved": event_rows(found.replay),
        "sections": differing_sections(now, rules),
        "found": found,
    }
