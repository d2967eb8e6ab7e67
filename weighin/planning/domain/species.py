"""The kinds of fish that are planned for, each with its own weight, words, marks and cautions."""

from dataclasses import dataclass

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


FAMILY = "the range is that of white crappie, largemouth bass and bluegill"
BASS_HEAT = (
    "Largemouth bass die more often above 25\u00a0°C (77\u00a0°F).",
    "At weigh-ins 2.2 % of 3,290 were dead, rising sharply above it (Edwards et al. 2004). Fewer fish, fewer hours.",
)
CRAPPIE = Fish(
    name="crappie",
    words="crappie",
    one="a crappie",
    curve=SUNFISH,
    each="1.3 lb",  # common practice, no source
    marks="Black crappie: spots, 7 or 8 spines in the back fin. White crappie: bars, 5 or 6 spines.",
    curve_words=f"There is no curve for black crappie; {FAMILY}. White crappie’s own understates heat.",
    heat=(
        "White crappie stop growing near 27\u00a0°C (80.6\u00a0°F).",
        "From there on little is left over for growth (Hayward & Arnold 1996; it was growth that was measured, not recovery, and a "
        "later Missouri study (Trans. Am. Fish. Soc. 141, 2012) found growth above it where prey was plenty). Hold fewer: an eighth fish only in place of "
        "one that looks likely to die.",
    ),
    heat_from_c=(80 - 32) / 1.8,
)
LARGEMOUTH = Fish(
    name="largemouth_bass",
    words="largemouth bass",
    one="a largemouth bass",
    curve="largemouth_bass",
    each="1.8 lb",  # Alabama 2005: 34,921 lb of 19,526 bass
    marks="Largemouth: the jaw reaches past the eye, the back fins nearly part, a dark band along the side. "
    "Smallmouth: the jaw ends below the eye, the fins are joined, bars.",
    curve_words="Largemouth bass: one published curve, no range.",
    heat=BASS_HEAT,
    heat_from_c=25.0,
)
SMALLMOUTH = Fish(
    name="smallmouth_bass",
    words="smallmouth bass",
    one="a smallmouth bass",
    curve=SUNFISH,
    each="2 lb",  # from memory
    marks="Smallmouth: the jaw ends below the eye, the back fins are joined, bars on the side. "
    "Largemouth: the jaw reaches past the eye, the fins nearly part, a dark band.",
    curve_words=f"Smallmouth bass have published curves that differ twofold between themselves; {FAMILY}.",
    heat=BASS_HEAT,
    heat_from_c=25.0,
)
WALLEYES = Fish(
    name="walleye",
    words="walleye",
    one="a walleye",
    curve=WALLEYE,
    each="2.5 lb",  # from memory
    marks="Walleye: a white tip below on the tail, no spots on the spiny back fin but a dark one at its end. "
    "Sauger: rows of spots on that fin, no white tip.",
    curve_words="Walleye: one published curve, no range.",
    heat=(
        "Walleye are fish of cool water: above 18\u00a0°C (64\u00a0°F) far more die.",
        "In 14 events few died below 14\u00a0°C (57\u00a0°F) and many above 18 (Schramm et al. 2010); of walleye used to 24\u00a0°C "
        "(75\u00a0°F) none lived five days after a tournament was played through (Loomis et al. 2013).",
    ),
    heat_from_c=18.0,
)
OTHER = Fish(
    name="sunfish",
    words="other fish",
    one="a fish",
    curve=SUNFISH,
    each="1 lb",
    marks="",
    curve_words=f"Taken as of the sunfish family; {FAMILY}. Other fish may lie outside.",
    heat=("Warm water holds less oxygen and fish use more of it.", "Fewer fish, fewer hours."),
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
    return found[0] if found else ""
