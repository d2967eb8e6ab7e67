"""Customary units into SI and back, exact: international pound and foot, US gallon of 231 cubic inches."""

KG_PER_POUND = 0.45359237
LITRES_PER_GALLON = 3.785411784
METRES_PER_FOOT = 0.3048
PASCALS_PER_MMHG = 101325 / 760  # as in the oxygen tables; the conventional one differs by 1 in 7 million
MMHG_PER_INCH = 25.4
DEGREES_F_PER_C = 1.8


def celsius(fahrenheit: float) -> float:
    """Degrees Fahrenheit as degrees Celsius.

    Examples
    --------
    >>> celsius(77)
    25.0
    """
    return (fahrenheit - 32) / DEGREES_F_PER_C


def fahrenheit(celsius: float) -> float:
    """Degrees Celsius as degrees Fahrenheit.

    Examples
    --------
    >>> fahrenheit(25)
    77.0
    """
    return celsius * DEGREES_F_PER_C + 32


def kilograms(pounds: float) -> float:
    """Pounds as kilograms.

    Examples
    --------
    >>> kilograms(1)
    0.45359237
    """
    return pounds * KG_PER_POUND


def pounds(kilograms: float) -> float:
    """Kilograms as pounds.

    Examples
    --------
    >>> round(pounds(1), 4)
    2.2046
    """
    return kilograms / KG_PER_POUND


def litres(gallons: float) -> float:
    """US gallons as litres.

    Examples
    --------
    >>> litres(20)
    75.70823568
    """
    return gallons * LITRES_PER_GALLON


def gallons(litres: float) -> float:
    """Litres as US gallons.

    Examples
    --------
    >>> round(gallons(100), 2)
    26.42
    """
    return litres / LITRES_PER_GALLON


def metres(feet: float) -> float:
    """Feet as metres.

    Examples
    --------
    >>> metres(1000)
    304.8
    """
    return feet * METRES_PER_FOOT
