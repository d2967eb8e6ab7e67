"""The tablet's own SHA-256 and HMAC against the published examples: there is no crypto.subtle over plain http."""

import javascript
import pytest

# FIPS 180-4: the examples of NIST's "Secure Hash Standard (SHS), Examples with Intermediate Values", and a million "a"
SHA256 = [
    ("", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
    ("abc", 1, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
    (
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1,
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ),
    (
        "abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu", 1,
        "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1",
    ),
    ("a", 1_000_000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"),
]  # fmt: skip
# RFC 4231, section 4: key, data, HMAC-SHA-256, in hexadecimal
HMAC = [
    ("0b" * 20, b"Hi There".hex(), "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7"),
    (
        b"Jefe".hex(), b"what do ya want for nothing?".hex(),
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
    ),
    ("aa" * 20, "dd" * 50, "773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe"),
    (
        "0102030405060708090a0b0c0d0e0f10111213141516171819", "cd" * 50,
        "82558a389a443c0ea4cc819899f2083a85f0faa3e578f8077a2e3ff46729665b",
    ),
    (
        "aa" * 131, b"Test Using Larger Than Block-Size Key - Hash Key First".hex(),
        "60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54",
    ),
    (
        "aa" * 131,
        b"This is a test using a larger than block-size key and a larger than block-size data. The key needs to be hashed "
        b"before being used by the HMAC algorithm.".hex(),
        "9b09ffa71b942fcb27635fbcd5b0e944bfdc63644f0713938a7f51535c3a35e2",
    ),
]  # fmt: skip
HEX = "(text) => Uint8Array.from((text.match(/../g) || []).map((one) => parseInt(one, 16)))"


@pytest.mark.parametrize(("text", "times", "digest"), SHA256, ids=lambda one: str(one)[:12])
def test_sha256(text: str, times: int, digest: str) -> None:
    work = "sha.hex(sha.sha256(new TextEncoder().encode(cases[0].repeat(cases[1]))))"
    assert javascript.run(work, [text, times], sha="device/sha256") == digest


def test_hmac() -> None:
    work = f"cases.map(([key, data]) => sha.hex(signing.hmac(({HEX})(key), ({HEX})(data))))"
    cases = [[key, data] for key, data, _ in HMAC]
    assert javascript.run(work, cases, signing="device/signing", sha="device/sha256") == [
        digest for _, _, digest in HMAC
    ]
