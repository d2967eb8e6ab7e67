"""How much oxygen water can hold."""


def full_of_air(temperature_f: float) -> float:
    """Oxygen in fresh water at sea level that takes no more from the air, in mg/L, for 32 to 95 °F.

    468 / (31.6 + °C), a rule of thumb from memory; within 2 % of the tables.
    """
    return 468 / (31.6 + (temperature_f - 32) / 1.8)
