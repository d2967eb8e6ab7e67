"""The kinds of fish that are planned for, each with its own weight, words, marks and cautions."""

from dataclasses import dataclass

from django.utils.translation import gettext, gettext_noop

from weighin.livewell.respiration import SUNFISH
from weighin.planning.domain.question import WALLEYE
from weighin.rules.species import kinds_of


@dataclass(frozen=True)
class Fish:
    """A kind of fish.

    ``name`` is what addresses carry; ``curve`` a curve of `livewell.respiration`; ``each`` the weight of one that is
    planned with until somebody writes another; ``marks`` how it is told from its neighbours (handbook knowledge);
    ``curve_words`` what is known of its breathing; ``heat`` what heat does to it, from ``heat_from_c`` (°C) on.
    """

    name: str
    words: str
    one: str
    curve: str
    each: str
    marks: str
    curve_words: str
    heat: tuple[str, str]
    heat_from_c: float


BASS_HEAT = (
    gettext_noop("Largemouth bass die more often above 25 °C (77 °F)."),
    gettext_noop(
        "At weigh-ins 2.2 % of 3,290 were dead, rising sharply above it (Edwards et al. 2004). Fewer fish, fewer hours."
    ),
)
CRAPPIE = Fish(
    name="crappie",
    words=gettext_noop("crappie"),
    one=gettext_noop("a crappie"),
    curve=SUNFISH,
    each="1.3 lb",  # common practice, no source
    marks=gettext_noop("Black crappie: spots, 7 or 8 spines in the back fin. White crappie: bars, 5 or 6 spines."),
    curve_words=gettext_noop(
        "There is no curve for black crappie; the range is that of white crappie, largemouth bass and bluegill. White "
        "crappie’s own understates heat."
    ),
    heat=(
        gettext_noop("White crappie stop growing near 27 °C (80.6 °F)."),
        (
            gettext_noop(
                "From there on little is left over for growth (Hayward & Arnold 1996; it was growth that was measured, not "
                "recovery, and a later Missouri study (Trans. Am. Fish. Soc. 141, 2012) found growth above it where prey was "
                "plenty). Hold fewer: an eighth fish only in place of one that looks likely to die."
            )
        ),
    ),
    heat_from_c=(80 - 32) / 1.8,
)
LARGEMOUTH = Fish(
    name="largemouth_bass",
    words=gettext_noop("largemouth bass"),
    one=gettext_noop("a largemouth bass"),
    curve="largemouth_bass",
    each="1.8 lb",  # Alabama 2005: 34,921 lb of 19,526 bass
    marks=(
        gettext_noop(
            "Largemouth: the jaw reaches past the eye, the back fins nearly part, a dark band along the side. Smallmouth: "
            "the jaw ends below the eye, the fins are joined, bars."
        )
    ),
    curve_words=gettext_noop("Largemouth bass: one published curve, no range."),
    heat=BASS_HEAT,
    heat_from_c=25.0,
)
SMALLMOUTH = Fish(
    name="smallmouth_bass",
    words=gettext_noop("smallmouth bass"),
    one=gettext_noop("a smallmouth bass"),
    curve=SUNFISH,
    each="2 lb",  # from memory
    marks=(
        gettext_noop(
            "Smallmouth: the jaw ends below the eye, the back fins are joined, bars on the side. Largemouth: the jaw reaches "
            "past the eye, the fins nearly part, a dark band."
        )
    ),
    curve_words=gettext_noop(
        "Smallmouth bass have published curves that differ twofold between themselves; the range is that of white crappie, "
        "largemouth bass and bluegill."
    ),
    heat=BASS_HEAT,
    heat_from_c=25.0,
)
WALLEYES = Fish(
    name="walleye",
    words=gettext_noop("walleye"),
    one=gettext_noop("a walleye"),
    curve=WALLEYE,
    each="2.5 lb",  # from memory
    marks=(
        gettext_noop(
            "Walleye: a white tip below on the tail, no spots on the spiny back fin but a dark one at its end. Sauger: rows "
            "of spots on that fin, no white tip."
        )
    ),
    curve_words=gettext_noop("Walleye: one published curve, no range."),
    heat=(
        gettext_noop("Walleye are fish of cool water: above 18 °C (64 °F) far more die."),
        (
            gettext_noop(
                "In 14 events few died below 14 °C (57 °F) and many above 18 (Schramm et al. 2010); of walleye used to 24 °C "
                "(75 °F) none lived five days after a tournament was played through (Loomis et al. 2013)."
            )
        ),
    ),
    heat_from_c=18.0,
)
OTHER = Fish(
    name="sunfish",
    words=gettext_noop("other fish"),
    one=gettext_noop("a fish"),
    curve=SUNFISH,
    each="1 lb",
    marks="",
    curve_words=gettext_noop(
        "Taken as of the sunfish family; the range is that of white crappie, largemouth bass and bluegill. Other fish may lie "
        "outside."
    ),
    heat=(
        gettext_noop("Warm water holds less oxygen and fish use more of it."),
        gettext_noop("Fewer fish, fewer hours."),
    ),
    heat_from_c=(80 - 32) / 1.8,
)
FISH = {each.name: each for each in (CRAPPIE, LARGEMOUTH, SMALLMOUTH, WALLEYES, OTHER)}


def fish_of(species: str) -> Fish:
    """The kind that a rule sheet's ``species`` names first; ``OTHER`` where none of ours is named.

    >>> fish_of("Black crappie").name, fish_of("bass").name, fish_of("carp").name
    ('crappie', 'largemouth_bass', 'sunfish')
    """
    named = [kind.name for kind in kinds_of(species) if kind.name in FISH]
    return FISH[named[0]] if named else OTHER


def marks_of(species: str) -> str:
    """How to tell the fish that a rule sheet names; empty where no mark is known."""
    found = [FISH[kind.name].marks for kind in kinds_of(species) if kind.name in FISH]
    return gettext(found[0]) if found else ""
