"""A browser in words, from what it says of itself: enough for its owner to know it again."""

import re

from django.utils.translation import gettext

# The first that is found counts: every browser also names those it is like
BROWSERS = (
    ("Edg", "Edge"), ("OPR/", "Opera"), ("SamsungBrowser", "Samsung Internet"), ("Firefox", "Firefox"),
    ("FxiOS", "Firefox"), ("CriOS", "Chrome"), ("Chrome", "Chrome"), ("Safari", "Safari"),
)  # fmt: skip
SYSTEMS = (
    ("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"), ("CrOS", "ChromeOS"), ("Windows", "Windows"),
    ("Mac OS", "Mac"), ("Linux", "Linux"),
)  # fmt: skip


def device_words(agent: str) -> str:
    """Such as "Chrome on Android"; "a script or another program" for what is no browser."""
    browser = next((words for sign, words in BROWSERS if sign in agent), "")
    system = next((words for sign, words in SYSTEMS if re.search(sign, agent)), "")
    if not browser and not system:
        return gettext("a script or another program")
    if not browser or not system:
        return browser or system
    return gettext("%(browser)s on %(system)s") % {"browser": browser, "system": system}
