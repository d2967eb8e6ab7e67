"""The arithmetic of a draw against worked examples.

The hashes were worked out by another program, GNU coreutils: printf '%s' 'river coin heads 7|launch|1' | sha256sum
"""

import pytest

from weighin.registration.domain.drawing import by_hash, dealt, hash_of, seed_of

SEED = "river coin heads 7"
TEAMS = [(1, "Alder & Birch"), (2, "Reed & Rush"), (3, "Carp & Daughter"), (4, "Żabno łowi")]
HASHES = {
    "river coin heads 7|launch|1": "6067c515617f22cce1e71c4aaa6c11fedfdfedff33c5f559764942ba5fb047ee",
    "river coin heads 7|launch|2": "1dff8e2de6eb069319546dce862bf2b6effd16680cd35fa93904b24f76d29411",
    "river coin heads 7|launch|3": "b92a14ae59042adb1262397a5e634b9bd8e603ac12f60bfe714890b14f6f56fa",
    "river coin heads 7|launch|4": "823a1c13ae7e4230073b0a8091d5dfeba1d12f88ecf3a77c6547df7e43b13e60",
    "river coin heads 7|boats|1": "e50bfba01a67a46db5b67e3195be05d14ae4073051ce82e68159049be8f3d1f8",
    "river coin heads 7|flights|12": "636e41c04e112a3dc9fc8947d0b2f2c5a5dfffdfff14352ed832c038112fac19",
    "Żabno ☂|lots|300": "26acd1ec6467c26f34a9b85ae9cddb10cf12bcd342a5373dbda941885da35af5",
    "a|b|lots|5": "34e2f5621d170e745c17a4c287fd7358b80ff2ddbfb9396c7e04296100608591",
}


@pytest.mark.parametrize("asked", HASHES)
def test_a_hash_is_that_of_sha256sum(asked: str) -> None:
    seed, purpose, entry = asked.rsplit("|", 2)
    assert hash_of(seed, purpose, int(entry)) == HASHES[asked]


@pytest.mark.parametrize(
    ("written", "seed"),
    [
        ("  river coin\theads   7\n", SEED),
        ("River Coin", "River Coin"),
        ("e\u0301", "e\u0301"),
        ("\u00e9", "\u00e9"),
        ("a\u00a0 b", "a b"),
        (" \t\n ", ""),
        ("a|b", "a|b"),
    ],
)
def test_only_white_space_of_a_seed_is_changed(written: str, seed: str) -> None:
    assert seed_of(written) == seed


def test_the_order_is_that_of_the_hashes() -> None:
    order = by_hash(SEED, "launch", TEAMS)
    assert [row[2] for row in order] == sorted(HASHES[f"{SEED}|launch|{n}"] for n in (1, 2, 3, 4))
    assert order == by_hash(SEED, "launch", reversed(TEAMS))


def test_boats_get_the_free_numbers_launch_and_lots_their_places_and_flights_their_turn() -> None:
    order = by_hash(SEED, "launch", TEAMS)

    def given(purpose: str, **more: object) -> list[object]:
        return [one.result for one in dealt(purpose, order, **more)]  # type: ignore[arg-type]

    assert given("launch") == given("lots") == [1, 2, 3, 4]
    assert given("boats", taken={1, 3, 4, 9}) == [2, 5, 6, 7]
    assert given("flights", flights=["Red", "Blue", "White"]) == ["Red", "Blue", "White", "Red"]
    assert dealt("lots", []) == []
