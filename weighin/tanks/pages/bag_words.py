"""The account in words."""

from weighin.tanks.queries.bags import Account
from weighin.ui.templatetags.ui import counted

FISH = "fish"


def headline(found: Account) -> str:
    """The finding."""
    if not found.boats:
        return "No fish is weighed yet."
    if found.unknown > 0:
        return f"{counted(found.unknown, FISH)} of {found.alive:,} that came in alive {'is' if found.unknown == 1 else 'are'} not accounted for."
    if found.unknown < 0:
        return f"{counted(-found.unknown, FISH)} more {'is' if found.unknown == -1 else 'are'} written down than came in alive."
    if found.tank_fish:
        return f"Every fish is accounted for; {counted(found.tank_fish, FISH)} {'is' if found.tank_fish == 1 else 'are'} still in the tank."
    return (
        f"All {found.alive:,} fish that came in alive are accounted for."
        if found.alive != 1
        else "The one fish that came in alive is accounted for."
    )


def lines(found: Account) -> list[tuple[str, str, bool]]:
    """The sum, line by line: words, figure, and whether it is nothing."""
    parts = [
        ("Back in the water alive", found.back),
        ("Dead when let go", found.died),
        ("Kept or given away alive", found.kept),
        ("Lent and not back", found.lent),
        ("In the release tank", found.tank_fish),
        ("Not accounted for" if found.unknown >= 0 else "Written down too often", found.unknown),
    ]
    return [(words, f"{figure:,}".replace("-", "− "), figure == 0) for words, figure in parts]


def remarks(found: Account) -> list[str]:
    """What the account cannot know, and what to do."""
    said = []
    if found.without_boats:
        count = len(found.without_boats)
        said.append(
            f"{counted(count, 'release')} {'names' if count == 1 else 'name'} no boats, so which boat’s fish are missing "
            "cannot be said, and times on slips are not added: they may be the same fish."
        )
    for bag in found.astray:
        said.append(
            f"Boat {bag.entry.boat}’s {counted(bag.fish, FISH)} {'is' if bag.fish == 1 else 'are'} in the tank, but its slip no longer counts: settle or "
            "write its slip, or take the bag back."
        )
    for boat in found.changed:
        if boat.bag is not None:
            said.append(
                f"Boat {boat.boat} handed over {counted(boat.bag.fish, FISH)}; its slip now has {boat.to_release} to go back. Count the tank, "
                "or take the bag back and hand it over again."
            )
    if found.unknown < 0:
        said.append("Look for a batch written twice, or for kept fish that went back with a batch after all.")
    if found.lent:
        said.append(
            "Lent fish come back into the tally: write them as come back under Releases, and let them go with a batch."
        )
    return said
