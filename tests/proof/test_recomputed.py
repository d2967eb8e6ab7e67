"""Whole events worked out by the site, and by the page's own script from their proofs alone: the same to the last digit."""

import json
import os
from decimal import Decimal
from fractions import Fraction
from functools import cache
from random import Random
from typing import Any

import javascript
from proof import again
from proof.random_proofs import Proof, random_proof, value

from weighin.proof.queries.recomputed import recomputed
from weighin.rules import rulebook
from weighin.rules.faults import Faults
from weighin.rules.sheet.keys import KEYS

MANY = int(os.environ.get("WEIGHIN_PROOFS", "300"))
# Keys that say nothing of one event's result, and what they are about; any other must change a generated one
ELSEWHERE = {
    "species": "words", "boat_limit": "fish care", "minimum_length_in": "judged by hand", "deep_fish_kept_ft": "told to the boats",
    "measured_lengths_above": "told to the boats", "count_best": "the season", "season_ties": "the season",
    **dict.fromkeys((key.name for key in KEYS if key.name.startswith("care_")), "fish care"),
}  # fmt: skip


@cache
def generated() -> list[Proof]:
    return [random_proof(seed) for seed in range(MANY)]


def by_the_script(proofs: list[Proof]) -> list[dict[str, Any]]:
    """What the page's script finds of each proof, as it stands in a file."""
    work = "cases.map((text) => proof.check(text))"
    return list(javascript.run(work, [json.dumps(one, ensure_ascii=False) for one in proofs], proof="proof/check"))


def numbers(value: Any) -> Any:
    """The same with weights and money as numbers."""
    if isinstance(value, dict):
        return {name: value[name] if name in ("team", "name") else numbers(value[name]) for name in value}
    if isinstance(value, list):
        return [numbers(one) for one in value]
    try:
        return Decimal(value) if isinstance(value, str) else value
    except ArithmeticError:
        return value


def test_script_and_site_work_out_the_same_of_generated_events() -> None:
    proofs = generated()
    seen: set[str] = set()
    for seed, (proof, found) in enumerate(zip(proofs, by_the_script(proofs), strict=True)):
        assert found["differs"] == [], seed
        assert found["digest"]["holds"], seed
        told = {name: part for name, part in proof["result"].items() if name != "version"}
        assert numbers(found["result"]) == numbers(told), seed
        for row in told["standings"]:
            seen |= {row["status"], f"tied {row['tied']}", *(f"lost {day['lost']}" for day in row["days"])}
            seen |= {line["reason"] for day in row["days"] for line in day["deductions"]}
            seen |= {"paid"} if Decimal(row["payout"]) else set()
        seen |= {"pot" for pot in told["side_pots"] if pot["payouts"]}
        seen |= {"cut"} if proof["rules"]["cut_after_day"] else set()
    assert seen >= {
        "ranked", "in_question", "no_fish", "not_weighed", "absent", "disqualified", "withdrawn", "tied True", "lost ruling",
        "lost over_limit", "lost short_fish", "lost late", "over_limit", "short_fish", "dead_fish", "late", "extra", "paid", "pot", "cut",
    }  # fmt: skip


def exactly(found: Any, told: Any) -> bool:
    """Whether a figure of the other program is that of a proof."""
    if found is None or told is None or isinstance(found, str):
        return bool(found == told)
    return bool(found == Fraction(told) if isinstance(told, str) else float(found) == told)


def unlike(proof: Proof) -> list[str]:
    """Where the program that knows only the scoring contract comes to something else than a proof says."""
    found, told = again.result(proof), proof["result"]
    wrong = [f"purse {name}" for name, figure in told["purse"].items() if not exactly(found["purse"][name], figure)]
    wrong += ["order"] * ([row["boat"] for row in found["standings"]] != [row["boat"] for row in told["standings"]])
    for row, mine in zip(told["standings"], found["standings"], strict=True):
        wrong += [f"{row['boat']} {name}" for name in row if name != "days" and not exactly(mine[name], row[name])]
        for day, own in zip(row["days"], mine["days"], strict=True):
            wrong += [
                f"{row['boat']} {name}" for name in day if name != "deductions" and not exactly(own[name], day[name])
            ]
            lines = [(line["reason"], line["count"], Fraction(line["amount"])) for line in day["deductions"]]
            mine_too = [(line["reason"], line["count"], line["amount"]) for line in own["deductions"]]
            wrong += [f"{row['boat']} deductions"] * (lines != mine_too)
    for pot, own in zip(told["side_pots"], found["side_pots"], strict=True):
        wrong += [f"{pot['name']} {name}" for name in ("amount", "unclaimed") if not exactly(own[name], pot[name])]
        payouts = {one["boat"]: Fraction(one["amount"]) for one in pot["payouts"]}
        wrong += [f"{pot['name']} payouts"] * (payouts != own["payouts"])
    return wrong


def test_a_second_program_that_knows_only_the_contract_comes_to_the_same() -> None:
    assert {seed: wrong for seed in range(MANY) if (wrong := unlike(generated()[seed]))} == {}


def test_every_key_that_decides_a_result_changes_one_on_the_site_and_in_the_script() -> None:
    """A key that one of the two does not know decides nothing there, and is named here."""
    rng = Random("each key")
    deciding = [key for key in KEYS if key.name not in {**ELSEWHERE, "cut_keep": "with the cut"}]
    changed: dict[str, list[bool]] = {key.name: [] for key in deciding}
    tried = []
    for key in deciding:
        for number in range(40):
            proof = generated()[(number * 7) % min(MANY, 280)]
            days = len(proof["event"]["days"])
            text = value(rng, key, proof["event"]["weight_unit"], days)
            keep = {"cut_keep": "1" if text != "none" else "none"} if key.name == "cut_after_day" else {}
            written = {name: "none" if said is None else said for name, said in proof["rules"].items()}
            try:
                rules = rulebook.read({**written, key.name: text, **keep}, proof["event"]["weight_unit"])
            except Faults:
                continue
            said = {name: None if one == "none" else one for name, one in rules.written().items()}
            found = recomputed({**proof, "rules": said})
            tried.append((key.name, proof, {**proof, "rules": said}, found))
    for (name, proof, _, found), script in zip(tried, by_the_script([one for _, _, one, _ in tried]), strict=True):
        before = {part: proof["result"][part] for part in ("standings", "purse", "side_pots")}
        sound = not any(line.startswith("slip ") for line in found.differs)
        if sound and found.result is not None:
            after = {part: found.result[part] for part in before}
            assert numbers(script["result"]) == numbers(after), name
            changed[name].append(numbers(after) != numbers(before))
    assert [name for name, seen in changed.items() if not any(seen)] == []
