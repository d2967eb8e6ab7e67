"""What stands on every briefing: a bold sentence, and what to do. General practice; no legal or veterinary advice."""

LAW = (
    "State and local fishing law and the permit come first.",
    "Daily and possession limits and culling rules hold during tournaments. This is no legal or veterinary advice.",
)
ICE = ("Ice: insulated gloves; no dry ice in a livewell or cabin.", "Put it in by steps or in sealed bottles.")
OXYGEN = (
    "Oxygen feeds fire.",
    "Secure the cylinder; no flame, smoke, oil or grease; open it slowly; vent the lid.",
)
PRODUCTS = (
    "Salt and products only as labelled and permitted.",
    "Salt: weigh it, non-iodized, know the volume; keep brine out of the lake. No drug or anaesthetic without the "
    "agency’s word; treated fish may not be fit to eat.",
)
WATER = (
    "A gallon weighs 8.3 lb: drain a well or a tank, never lift it.",
    "Electricity near water: protected outlets, dry connections, no mains within reach of a tank.",
)
HANDS = ("Fin spines cut.", "Gloves; wash; cover wounds.")
DEPTH = (
    "Do not vent crappie.",
    "Some agencies forbid it for contests. Most crappie from about 28 to 32 ft died in a Minnesota pilot: from 20 to "
    "25 ft on, fish shallower or stop.",
)
DEEP = (
    "Fish from deep water may not live.",
    "Fish shallower or stop. Venting only where the agency allows it.",
)
WEATHER = (
    "Thunder heard: stop, clear the water and canopies.",
    "Fishing goes on 30 minutes after the last thunder (NOAA’s guidance for large groups).",
)
HEAT = (
    "Heat: water, rest, shade.",
    "Heat index under 91 °F caution, 91–103 moderate, 103–115 high, above very high (OSHA). "
    "Confusion or collapse: call the emergency number.",
)
BOATS = (
    "Nobody hurries for a weigh-in.",
    "Life jackets and kill switches as the law requires. Clean, drain and dry between waters.",
)

BY_HANDLING = {
    "hold_release": (LAW, ICE, OXYGEN, PRODUCTS, WATER, HANDS, DEPTH, WEATHER, HEAT, BOATS),
    "immediate_release": (LAW, HANDS, DEPTH, WEATHER, HEAT, BOATS),
    "harvest": (LAW, HANDS, WEATHER, HEAT, BOATS),
}


def cautions_for(handling: str, species: str) -> tuple[tuple[str, str], ...]:
    """The cautions of an event, by what becomes of the fish and which count."""
    crappie = "crappie" in species.lower()
    return tuple(DEEP if each is DEPTH and not crappie else each for each in BY_HANDLING[handling])
