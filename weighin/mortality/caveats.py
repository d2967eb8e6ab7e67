"""What every figure of dead fish must be read with, in plain words. (head, text) pairs for page and paper alike."""

from weighin.mortality.words import counted, percent

AT_LEAST = (
    "It is the least that died.",
    "Fish that died on the water and were put back or culled before the scales are seen by nobody here.",
)
A_JUDGEMENT = (
    "Dead is a judgement at the table.",
    "A fish that still gills is counted alive. Another official, or another minute, may judge otherwise.",
)
OTHER_DENOMINATORS = (
    "Compare only like with like.",
    "Agencies and clubs divide by different fish: brought to the scales, released, or of one species. Each rate here names "
    "its own.",
)
WILDE = (
    f"Of 130 black bass events those of the 1990s lost {percent(0.065)} by the weigh-in and {percent(0.283)} with later "
    "deaths (Wilde 1998, Fisheries 23). Larger black bass contests lost a smaller share (r = −0.54), so the size of an event is "
    "a thing to compare by too."
)
OBSERVED = (
    "What went together is not what did it.",
    "Hot days also had other boats, other waits and other anglers. These are observations and no experiment.",
)


def event_caveats(species: str) -> list[tuple[str, str]]:
    """For one event, of the species its rule sheet names."""
    one_day = (
        "One event is one event.",
        "Its range is about the luck of this catch, not about how other days would go.",
    )
    return [AT_LEAST, A_JUDGEMENT, one_day, OTHER_DENOMINATORS, published(species)]


def season_caveats(events: int, studies: int, species: str) -> list[tuple[str, str]]:
    """For a season of so many events with fish and so many holding studies, of the species its latest rule sheet names."""
    if not events:
        return [AT_LEAST, A_JUDGEMENT, OTHER_DENOMINATORS, published(species)]
    few = (
        f"It is a matter of {counted(events, 'event')}, not of many fish.",
        "Days differ more than fish do: one bad day moves the whole season.",
    )
    later = (
        "Later deaths are not in the rate.",
        "No event held fish back to see; what died after release is not known.",
    )
    if studies:
        later = (
            "Later deaths are not in the rate.",
            f"{counted(studies, 'event')} held fish back to see. What {'it' if studies == 1 else 'they'} showed stands with "
            "the event alone and is not carried over to others.",
        )
    return [AT_LEAST, later, few, A_JUDGEMENT, OBSERVED, OTHER_DENOMINATORS, published(species)]


def published(species: str) -> tuple[str, str]:
    """What published figures there are, and how far they are from this fish."""
    if is_bass(species):
        return (
            "Other events are other events.",
            f"{WILDE} Those were other waters and other years: a comparison, no target.",
        )
    if "crappie" in species.casefold():
        return (
            "No published study of crappie tournaments was found.",
            f"{WILDE} For crappie that is an extrapolation, and may be wrong either way.",
        )
    return (
        "Published figures are mostly of black bass.",
        f"{WILDE} For {species or 'other fish'} that is an extrapolation, and may be wrong either way.",
    )


def is_bass(species: str) -> bool:
    """Whether figures of black bass are of this fish."""
    return any(name in species.casefold() for name in ("bass", "largemouth", "smallmouth"))
