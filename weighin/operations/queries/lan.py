"""How other devices at the lake reach this machine."""

import socket
from contextlib import suppress

import segno

# Documentation addresses (RFC 5737): naming one as the other end of a datagram socket sends nothing, and tells which
# of the machine's own addresses leads to the network
AFAR = ("192.0.2.1", 9)


def own_addresses() -> list[str]:
    """The machine's IPv4 addresses in the local networks, that of the usual way out first; empty without a network."""
    found: list[str] = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe, suppress(OSError):
        probe.connect(AFAR)
        found.append(probe.getsockname()[0])
    with suppress(OSError):
        found += [str(entry[4][0]) for entry in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)]
    return [address for address in dict.fromkeys(found) if not address.startswith("127.")]


def code(address: str) -> str:
    """A web address as a code of blocks that a phone reads off the terminal."""
    module = segno.make(address, error="m", micro=False)
    rows = [[False, *map(bool, row), False] for row in module.matrix_iter(border=1)]
    rows += [[False] * len(rows[0])] * (len(rows) % 2)
    blocks = {(True, True): " ", (True, False): "\u2584", (False, True): "\u2580", (False, False): "\u2588"}
    return "\n".join(
        "".join(blocks[above, below] for above, below in zip(upper, lower, strict=True))
        for upper, lower in zip(rows[::2], rows[1::2], strict=True)
    )
