"""What stands on every briefing: a bold sentence, and what to do. General practice; no legal or veterinary advice."""

from django.utils.translation import gettext, gettext_noop

from weighin.rules.rulebook import Rulebook
from weighin.rules.species import kinds_of

LAW = (
    gettext_noop("State and local fishing law and the permit come first."),
    gettext_noop(
        "Daily and possession limits and culling rules hold during tournaments. This is no legal or veterinary advice."
    ),
)
ICE = (
    gettext_noop("Ice: insulated gloves; no dry ice in a livewell or cabin."),
    gettext_noop("Add it by steps or in sealed bottles."),
)
OXYGEN = (
    gettext_noop("Oxygen feeds fire."),
    gettext_noop("Secure the cylinder; no flame, smoke, oil or grease; open it slowly; vent the lid."),
)
PRODUCTS = (
    gettext_noop("Salt and products only as labeled and permitted."),
    (
        gettext_noop(
            "Salt: weigh it, non-iodized, know the volume; keep brine out of the lake. No drug or anesthetic without the "
            "agency’s word; treated fish may not be fit to eat."
        )
    ),
)
WATER = (
    gettext_noop("A gallon weighs 8.3 lb: drain a livewell or a tank, never lift it."),
    gettext_noop(
        "Electricity near water: protected outlets, dry connections, nothing plugged in within reach of a tank."
    ),
)
HANDS = (gettext_noop("Fin spines cut."), gettext_noop("Gloves; wash; cover wounds."))
DEPTH = (
    gettext_noop("Do not vent crappie."),
    (
        gettext_noop(
            "A bladder that was pricked fills again; the wound and the handling stay, and some agencies forbid it for "
            "contests. In a Minnesota pilot 76 % of crappie from about 28 to 32 ft died or could not be released (about 50 "
            "fish, one lake, a night in a hoop net). From 20 to 25 ft on: do not fish there in winter, keep the fish where "
            "the law allows it, or let it down in a weighted cage."
        )
    ),
)
WALLEYE_DEPTH = (
    gettext_noop("Walleye from deep water die more often."),
    (
        gettext_noop(
            "Losses rose with the depth of catch (Schramm et al. 2010). Fish shallower, or keep the fish where the law "
            "allows it. Venting only where the agency allows it."
        )
    ),
)
DEEP = (
    gettext_noop("Fish from deep water may not live."),
    gettext_noop(
        "Fish shallower, keep the fish where the law allows it, or let it down in a weighted cage. Venting only where the agency allows it."
    ),
)
TAP_WATER = (
    gettext_noop("Tap water in a tank: take the chlorine out first."),
    gettext_noop(
        "Bring hardness and pH near the lake’s by steps; ice of tap water in sealed bottles (common practice)."
    ),
)
WEATHER = (
    gettext_noop("Thunder heard: stop, clear the water and canopies."),
    gettext_noop("Fishing goes on 30 minutes after the last thunder (NOAA’s guidance for large groups)."),
)
HEAT = (
    gettext_noop("Heat: water, rest, shade."),
    gettext_noop(
        "Heat index under 91 °F caution, 91–103 moderate, 103–115 high, above very high (OSHA). Confusion or collapse: call the emergency number."
    ),
)
BOATS = (
    gettext_noop("Nobody hurries for a weigh-in."),
    gettext_noop("Life jackets and kill switches as the law requires. Clean, drain and dry between waters."),
)

BY_HANDLING = {
    "hold_release": (LAW, ICE, OXYGEN, PRODUCTS, TAP_WATER, WATER, HANDS, DEPTH, WEATHER, HEAT, BOATS),
    "immediate_release": (LAW, HANDS, DEPTH, WEATHER, HEAT, BOATS),
    "harvest": (LAW, HANDS, WEATHER, HEAT, BOATS),
}


def cautions_for(handling: str, rules: Rulebook) -> tuple[tuple[str, str], ...]:
    """The cautions of an event, by what becomes of the fish and which count."""
    named = {kind.name for kind in kinds_of(rules.species)}
    deep = (
        DEPTH
        if "crappie" in named or "crappie" in rules.species.lower()
        else WALLEYE_DEPTH
        if "walleye" in named
        else DEEP
    )
    chosen = (deep if each is DEPTH else each for each in BY_HANDLING[handling])
    return tuple((gettext(bold), gettext(rest)) for bold, rest in chosen)
