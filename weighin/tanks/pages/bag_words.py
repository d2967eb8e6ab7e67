"""The account in words."""

from django.utils.translation import gettext, ngettext

from weighin.tanks.queries.bags import Account
from weighin.ui.templatetags.ui import counted


def headline(found: Account) -> str:
    """The finding."""
    if not found.boats:
        return gettext("No fish is weighed yet.")
    if found.unknown > 0:
        return ngettext(
            "%(fish)s of %(alive)s that came in alive is not accounted for.",
            "%(fish)s of %(alive)s that came in alive are not accounted for.",
            found.unknown,
        ) % {"fish": counted(found.unknown, "fish"), "alive": f"{found.alive:,}"}
    if found.unknown < 0:
        return ngettext(
            "%(fish)s more is recorded than came in alive.",
            "%(fish)s more are recorded than came in alive.",
            -found.unknown,
        ) % {"fish": counted(-found.unknown, "fish")}
    if found.tank_fish:
        return ngettext(
            "Every fish is accounted for; %(fish)s is still in the tank.",
            "Every fish is accounted for; %(fish)s are still in the tank.",
            found.tank_fish,
        ) % {"fish": counted(found.tank_fish, "fish")}
    return ngettext(
        "The one fish that came in alive is accounted for.",
        "All %(alive)s fish that came in alive are accounted for.",
        found.alive,
    ) % {"alive": f"{found.alive:,}"}


def lines(found: Account) -> list[tuple[str, str, bool]]:
    """The sum, line by line: words, figure, and whether it is nothing."""
    parts = [
        (gettext("Back in the water alive"), found.back),
        (gettext("Dead when let go"), found.died),
        (gettext("Kept or given away alive"), found.kept),
        (gettext("Lent and not back"), found.lent),
        (gettext("In the release tank"), found.tank_fish),
        (gettext("Not accounted for") if found.unknown >= 0 else gettext("Recorded too often"), found.unknown),
    ]
    return [(words, f"{figure:,}".replace("-", "− "), figure == 0) for words, figure in parts]


def remarks(found: Account) -> list[str]:
    """What the account cannot know, and what to do."""
    said = []
    if found.without_boats:
        count = len(found.without_boats)
        said.append(
            ngettext(
                "%(releases)s names no boats, so which boat’s fish are missing cannot be said, and times on slips are not added: they may be the same fish.",
                "%(releases)s name no boats, so which boat’s fish are missing cannot be said, and times on slips are not added: they may be the same fish.",
                count,
            )
            % {"releases": counted(count, "release")}
        )
    for bag in found.astray:
        said.append(
            ngettext(
                "Boat %(boat)s’s %(fish)s is in the tank, but its slip no longer counts: settle or add its slip, or void the bag.",
                "Boat %(boat)s’s %(fish)s are in the tank, but its slip no longer counts: settle or add its slip, or void the bag.",
                bag.fish,
            )
            % {"boat": bag.entry.boat, "fish": counted(bag.fish, "fish")}
        )
    for boat in found.changed:
        if boat.bag is not None:
            said.append(
                gettext(
                    "Boat %(boat)s brought %(fish)s to the tank; its slip now has %(to_release)s to go back. Count the tank, or void the bag and add it again."
                )
                % {"boat": boat.boat, "fish": counted(boat.bag.fish, "fish"), "to_release": boat.to_release}
            )
    if found.unknown < 0:
        said.append(gettext("Check for a batch recorded twice, or kept fish that went back with a batch."))
    if found.lent:
        said.append(
            gettext(
                "Lent fish come back into the tally: record them as come back under Releases, and release them with a batch."
            )
        )
    return said
