"""The words under which a parent or guardian consents. They are kept as they were shown."""

from django.utils.translation import gettext


def consent_words(club: str, event: str, age: int) -> str:
    """What is shown beside the box, and kept with the consent."""
    return gettext(
        "I am the parent or guardian named above of each angler under %(age)s, or sign up with that person’s word. I agree "
        "that they fish in %(event)s and that %(club)s keeps their names for it. I may ask the club at any time what is kept, "
        "and have it erased."
    ) % {"age": age, "event": event, "club": club}
