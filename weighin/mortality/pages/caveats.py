"""What every figure of dead fish must be read with, in plain words. (head, text) pairs for page and paper alike."""

from django.utils.functional import Promise
from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.mortality.domain.words import counted, percent

Caveat = tuple[str | Promise, str | Promise]  # its head, and its text

AT_LEAST: Caveat = (
    gettext_lazy("It is the least that died."),
    gettext_lazy("Fish that died on the water and were put back or culled before the scales are seen by nobody here."),
)
A_JUDGEMENT: Caveat = (
    gettext_lazy("Dead is a judgment at the table."),
    gettext_lazy("A fish that still gills is counted alive. Another official, or another minute, may judge otherwise."),
)
OTHER_DENOMINATORS: Caveat = (
    gettext_lazy("Compare only like with like."),
    gettext_lazy(
        "Agencies and clubs divide by different fish: brought to the scales, released, or of one species. Each rate here names its own."
    ),
)
OBSERVED: Caveat = (
    gettext_lazy("What went together is not what did it."),
    gettext_lazy(
        "Hot days also had other boats, other waits and other anglers. These are observations and no experiment."
    ),
)


def event_caveats(species: str) -> list[Caveat]:
    """For one event, of the species its rule sheet names."""
    one_day = (
        gettext("One event is one event."),
        gettext("Its range is about chance in this catch, not about how other days would go."),
    )
    return [AT_LEAST, A_JUDGEMENT, one_day, OTHER_DENOMINATORS, published(species)]


def season_caveats(events: int, studies: int, species: str) -> list[Caveat]:
    """For a season of so many events with fish and so many holding studies, of the species its latest rule sheet names."""
    if not events:
        return [AT_LEAST, A_JUDGEMENT, OTHER_DENOMINATORS, published(species)]
    few = (
        gettext("It is a matter of %(events)s, not of many fish.") % {"events": counted(events, "event")},
        gettext("Days differ more than fish do: one bad day moves the whole season."),
    )
    later = (
        gettext("Later deaths are not in the rate."),
        gettext("No event held fish back to see; what died after release is not known."),
    )
    if studies:
        later = (
            gettext("Later deaths are not in the rate."),
            ngettext(
                "%(events)s held fish back to see. What it showed stands with the event alone and is not carried over to others.",
                "%(events)s held fish back to see. What they showed stands with the event alone and is not carried over to others.",
                studies,
            )
            % {"events": counted(studies, "event")},
        )
    return [AT_LEAST, later, few, A_JUDGEMENT, OBSERVED, OTHER_DENOMINATORS, published(species)]


def _wilde() -> str:
    return gettext(
        "Of 130 black bass events those of the 1990s lost %(initial)s by the weigh-in and %(total)s with later deaths (Wilde "
        "1998, Fisheries 23). Larger black bass contests lost a smaller share (r = −0.54), so the size of an event is a thing "
        "to compare by too."
    ) % {"initial": percent(0.065), "total": percent(0.283)}


def published(species: str) -> Caveat:
    """What published figures there are, and how far they are from this fish."""
    if is_bass(species):
        return (
            gettext("Other events are other events."),
            f"{_wilde()} " + gettext("Those were other waters and other years: a comparison, no target."),
        )
    if "crappie" in species.casefold():
        return (
            gettext("No published study of crappie tournaments was found."),
            f"{_wilde()} " + gettext("For crappie that is an extrapolation, and may be wrong either way."),
        )
    return (
        gettext("Published figures are mostly of black bass."),
        f"{_wilde()} "
        + gettext("For %(fish)s that is an extrapolation, and may be wrong either way.")
        % {"fish": species or gettext("other fish")},
    )


def is_bass(species: str) -> bool:
    """Whether figures of black bass are of this fish."""
    return any(name in species.casefold() for name in ("bass", "largemouth", "smallmouth"))
