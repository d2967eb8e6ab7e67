"""What must hold of how the people of a team are reached."""

from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.faults import ODD_EMAIL
from weighin.rules.faults import Fault, Wrong
from weighin.rules.values import line

LONGEST = {"phone": 60, "emergency": 200, "email": 254}


def contact_faults(said: ContactValues) -> list[Fault]:
    """Faults at ``phone``, ``emergency`` and ``email``: each is one line, and an e-mail address has an @."""
    faults = []
    for name, most in LONGEST.items():
        try:
            line(getattr(said, name), most)
        except Wrong as error:
            faults.append(error.at(name))
    if said.email and "@" not in said.email:
        faults.append(ODD_EMAIL.at("email", email=said.email[:40]))
    return faults
