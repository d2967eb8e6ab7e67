"""Spanish of Mexico and the United States: a decimal point as in English, so a figure reads the same on every tablet.

What people type, and what a browser's own date line wants, stays as it is in English.
"""

from django.conf.locale.en import formats as english  # type: ignore[import-untyped]

DATE_FORMAT = r"j \d\e F \d\e Y"
TIME_FORMAT = "g:i A"
DATETIME_FORMAT = rf"{DATE_FORMAT}, {TIME_FORMAT}"
YEAR_MONTH_FORMAT = r"F \d\e Y"
MONTH_DAY_FORMAT = r"j \d\e F"
SHORT_DATE_FORMAT = "j M Y"
SHORT_DATETIME_FORMAT = "j M Y, g:i A"
FIRST_DAY_OF_WEEK = 0
DATE_INPUT_FORMATS = english.DATE_INPUT_FORMATS
TIME_INPUT_FORMATS = english.TIME_INPUT_FORMATS
DATETIME_INPUT_FORMATS = english.DATETIME_INPUT_FORMATS
DECIMAL_SEPARATOR = "."
THOUSAND_SEPARATOR = ","
NUMBER_GROUPING = 3
