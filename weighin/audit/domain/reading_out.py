"""The end of a chain as people read it out, print it and compare it."""

SHOWN = 16
GROUP = 4


def read_out(link: str) -> str:
    """The first sixteen figures of a link in groups of four.

    Two chains that agree in these and in their length are the same but for a chance of one in 2**64.

    >>> read_out("90b61f2c77aa0b1c" + "0" * 48)
    '90b6 1f2c 77aa 0b1c'
    """
    return " ".join(link[start : start + GROUP] for start in range(0, SHOWN, GROUP))


def is_read(written: str, link: str) -> bool:
    """Whether a link is the one that was read out, or written down whole; spaces and case do not matter.

    Fewer than eight figures are none.
    """
    plain = "".join(written.split()).lower()
    return len(plain) >= GROUP * 2 and link.startswith(plain)
