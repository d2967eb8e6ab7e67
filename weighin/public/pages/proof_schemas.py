"""JSON schema of a proof: everything from which a result can be worked out again, and the result."""

from weighin.proof.domain.canonical import FORMAT
from weighin.proof.domain.figures import SHOWN
from weighin.public.pages.schemas import Schema, an_object, or_null
from weighin.rules.sheet.keys import KEYS

WHOLE: Schema = {"type": "integer"}
TEXT: Schema = {"type": "string"}
FLAG: Schema = {"type": "boolean"}
MONEY: Schema = {"type": "string", "description": "Money, an exact decimal."}
CLOCK: Schema = {"type": "string", "description": "HH:MM, HH:MM:SS or ISO 8601, as the event workbook writes times."}
MINUTES: Schema = or_null({"type": "number"})
OBJECTS: Schema = {"type": "array", "items": {"type": "object"}}


def proof_schema() -> Schema:
    """The schema of ``/api/events/{slug}/proof``."""
    day = {"day": WHOLE, "date": TEXT, "start_time": or_null(CLOCK), "due_time": or_null(CLOCK), "status": TEXT}
    event = dict.fromkeys(("slug", "name", "weight_unit", "time_zone", "start_time", "due_time"), TEXT)
    fees = dict.fromkeys(("entry_fee", "added_money", "big_fish_pot_fee"), MONEY)
    flight = {"flight": TEXT, "day": or_null(WHOLE), "launch": or_null(CLOCK), "due_time": CLOCK}
    pot = {"name": TEXT, "fee": MONEY, "wins": TEXT, "shares": TEXT, "paid": _rows(WHOLE)}
    team = {
        "boat": WHOLE, "team": TEXT, "youth": or_null(FLAG), "status": TEXT, "paid": FLAG, "big_fish_pot": FLAG,
        "lot": or_null(WHOLE), "flight": or_null(TEXT),
    }  # fmt: skip
    came = {"checked_in": or_null(CLOCK), "minutes_late": or_null(WHOLE), "excused_minutes": MINUTES}
    figures: Schema = {field.name: {"description": str(field.meaning)} for field in SHOWN} | came
    slip = {"slip": WHOLE, "day": WHOLE, **figures, "boat": WHOLE, "disqualified": FLAG, "replaces": or_null(WHOLE)}
    void = {"slip": WHOLE, "day": WHOLE, "boat": WHOLE, "replaces": or_null(WHOLE), "void": {"const": True}}
    payouts = _rows(an_object({"boat": WHOLE, "amount": MONEY}))
    result = {
        "version": or_null({**WHOLE, "description": "The official version that says so; null without one."}),
        "standings": {**OBJECTS, "description": "As in PublicEvent, without the text of an extra penalty."},
        "purse": {"type": "object"},
        "side_pots": _rows(an_object({"name": TEXT, "amount": MONEY, "unclaimed": MONEY, "payouts": payouts})),
    }
    return an_object(
        {
            "format": {"enum": [FORMAT]},
            "event": an_object({**event, "days": _rows(an_object(day)), **fees}),
            "rules": an_object(
                {key.name: or_null(TEXT) for key in KEYS}, "As the event workbook writes them; null for none."
            ),
            "flights": _rows(an_object(flight)),
            "side_pots": _rows(an_object(pot)),
            "teams": _rows(an_object(team)),
            "slips": {
                **_rows({"anyOf": [an_object(slip), an_object(void)]}),
                "description": "All current ones, and every void; with a cut also the replaced ones of days up to it. Weights "
                "are strings that hold exact decimals, in pounds or kilograms; null = not recorded.",
            },
            "checkins": _rows(an_object({"day": WHOLE, "boat": WHOLE, **came})),
            "result": an_object(result),
            "ledger": an_object({"length": WHOLE, "head": TEXT}),
            "digest": {"type": "string", "pattern": "^[0-9a-f]{64}$"},
        },
        "The digest is SHA-256 over the canonical JSON (UTF-8, keys sorted, no spaces, strings as JSON needs them and no more) of "
        "everything but digest and result.version.",
    )


def _rows(schema: Schema) -> Schema:
    return {"type": "array", "items": schema}
