"""How the people of an entry are reached."""

from dataclasses import dataclass


@dataclass(frozen=True)
class ContactValues:
    """A phone number, whom to ring when the boat is missing, and an e-mail address; empty where nobody wrote one."""

    phone: str = ""
    emergency: str = ""
    email: str = ""

    @property
    def known(self) -> bool:
        """Whether anything is written."""
        return bool(self.phone or self.emergency or self.email)
