"""What keeps fish alive in a tank: pure physics and physiology, standard library only.

Every function takes SI keyword arguments unless its name says otherwise, checks its range and raises
`OutOfRange` (a ValueError that knows the argument's name) with a sentence to show. Where a figure is
uncertain the answer is an `Estimate` with its low and high ends, never one number alone. Nothing here is
veterinary advice.

    oxygen           how much the water can hold, and how full it is
    pressure         the air's pressure at the lake
    respiration      oxygen used by resting fish, by species, mass and temperature
    bag              minutes in a bag until the oxygen reaches a floor

    day              a livewell over a day: water, fish coming aboard, temperatures, water changes
    transfer         oxygen entering through the surface and the pump
    supply           oxygen from a cylinder
    budget           the oxygen of that day
    carbon_dioxide   its carbon dioxide, and the pH that follows
    ammonia          its ammonia, and the share of it that is poisonous
    loading          how full a tank is
    water_change     what a change of water does, and how often

    ice              ice for a drop in temperature, and the temperature after so much ice
    salt             salt for a percentage

    temperature.warming    how fast the well warms: one coefficient, measured with a thermometer
    temperature.cooling    how cold, and in which steps
    temperature.ice_plan   ice by the hour, and the temperatures it gives

    figures          estimates, courses, mixing, ranges, units: what the others are written with
"""
