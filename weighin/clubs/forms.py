"""Forms of clubs, seasons, waters and members."""

from typing import Any

from django import forms

from weighin.accounts.domain.roles import TABLE, Role
from weighin.accounts.forms import password_field
from weighin.clubs.models import Club, Membership
from weighin.ui.forms.service import ServiceForm

NOT_GUESSED = {"autocapitalize": "none", "spellcheck": "false"}
PASSWORD_HELP = "Eight characters or more. Four words are easy to keep in mind."


def username_field(autocomplete: str) -> forms.CharField:
    """A user name to choose."""
    return forms.CharField(
        label="User name",
        max_length=150,
        help_text="Written at every sign-in: letters, figures and . - _, no spaces.",
        widget=forms.TextInput(attrs={"autocomplete": autocomplete, **NOT_GUESSED}),
    )


def role_field() -> forms.ChoiceField:
    """A role, each with what it can do beside it."""
    return forms.ChoiceField(label="Role", choices=role_choices, widget=forms.RadioSelect)


def role_choices() -> list[tuple[str, str]]:
    """The roles in words, each with what it can do more than read."""
    said = {
        Role.DIRECTOR: "makes events, rules and teams, publishes, manages the club: everything",
        Role.WEIGH_OFFICIAL: "writes and corrects weigh slips",
        Role.FISH_CARE_OFFICIAL: "writes care notes, tanks and releases",
        Role.CLUB_REVIEWER: "reads everything and the history, writes nothing",
    }
    return [(role.value, f"{role.label}: {said[role]}") for role in TABLE]


class BeginForm(ServiceForm):
    """The first director and the club; ``here`` offers the clubs that were imported before."""

    word = forms.CharField(
        label="Word from the server",
        max_length=40,
        help_text="The server prints it when it starts. It is also in the file first-word in the data folder.",
        widget=forms.TextInput(attrs={"autocomplete": "off", **NOT_GUESSED}),
    )
    here = forms.ModelChoiceField(
        Club.objects.order_by("name"),
        label="Club",
        required=False,
        empty_label="A new club",
        to_field_name="slug",
        help_text="These came in with imported events.",
    )
    club = forms.CharField(
        label="Name of the club", max_length=120, required=False, help_text="As it stands on results and slips."
    )
    name = forms.CharField(
        label="Your name",
        max_length=120,
        help_text="As others should read it.",
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
    )
    username = username_field("username")
    password = password_field("Password", help_text=PASSWORD_HELP)
    again = password_field("Password once more")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not Club.objects.exists():
            del self.fields["here"]
            self.fields["club"].required = True

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if data.get("password") and data.get("again") and data["password"] != data["again"]:
            self.add_error("again", "It differs from the password. Write the same one twice.")
        return data


class ClubForm(ServiceForm):
    """A club's name."""

    name = forms.CharField(label="Club", max_length=120, help_text="As it stands on results and slips.")


class SeasonForm(ServiceForm):
    """A season's name."""

    name = forms.CharField(
        label="Season", max_length=80, help_text="Often the year. Points and fish of its events are added up together."
    )


class WaterForm(ServiceForm):
    """A water."""

    name = forms.CharField(label="Water", max_length=120, help_text="The lake, reservoir or river stretch.")
    elevation_ft = forms.IntegerField(
        label="Elevation",
        required=False,
        help_text="Height of the surface above the sea. The higher, the less oxygen the water can hold.",
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["elevation_ft"].unit = "ft"  # type: ignore[attr-defined]


class MemberForm(ServiceForm):
    """A new member."""

    name = forms.CharField(label="Name", max_length=120, help_text="As others should read it.")
    username = username_field("off")
    password = password_field(
        "First password",
        required=False,
        help_text="Tell it to the person, who changes it after the first sign-in. "
        "Blank only when the person has a user name on this site already, from another club.",
    )
    role = role_field()


class RoleForm(ServiceForm):
    """A member's role."""

    role = role_field()

    def __init__(self, *args: Any, membership: Membership, **kwargs: Any):
        super().__init__(*args, **{"initial": {"role": membership.role}, **kwargs})


class FirstPasswordForm(ServiceForm):
    """A new first password for a member who forgot theirs."""

    password = password_field(
        "New first password", help_text="Tell it to the person; every device of theirs is signed out."
    )


class RemoveForm(ServiceForm):
    """Nothing to write: a member, or another thing, is taken out."""
