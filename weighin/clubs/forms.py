"""Forms of clubs, seasons, waters and members."""

from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.accounts.domain.roles import TABLE, Role
from weighin.accounts.forms import password_field
from weighin.clubs.models import Club, Membership
from weighin.ui.forms.service import ServiceForm

NOT_GUESSED = {"autocapitalize": "none", "spellcheck": "false"}
PASSWORD_HELP = gettext_lazy("Eight characters or more. Four words are easy to keep in mind.")


def username_field(autocomplete: str) -> forms.CharField:
    """A user name to choose."""
    return forms.CharField(
        label=gettext_lazy("User name"),
        max_length=150,
        help_text=gettext_lazy("Written at every sign-in: letters, figures and . - _, no spaces."),
        widget=forms.TextInput(attrs={"autocomplete": autocomplete, **NOT_GUESSED}),
    )


def role_field() -> forms.ChoiceField:
    """A role, each with what it can do beside it."""
    return forms.ChoiceField(label=gettext_lazy("Role"), choices=role_choices, widget=forms.RadioSelect)


def role_choices() -> list[tuple[str, str]]:
    """The roles in words, each with what it can do more than read."""
    said = {
        Role.DIRECTOR: gettext_lazy("makes events, rules and teams, publishes, manages the club: everything"),
        Role.WEIGH_OFFICIAL: gettext_lazy("writes and corrects weigh slips"),
        Role.FISH_CARE_OFFICIAL: gettext_lazy("writes care notes, tanks and releases"),
        Role.CLUB_REVIEWER: gettext_lazy("reads everything and the history, writes nothing"),
    }
    return [(role.value, f"{role.label}: {said[role]}") for role in TABLE]


class BeginForm(ServiceForm):
    """The first director and the club; ``here`` offers the clubs that were imported before."""

    word = forms.CharField(
        label=gettext_lazy("Word from the server"),
        max_length=40,
        help_text=gettext_lazy(
            "The server prints it when it starts. It is also in the file first-word in the data folder."
        ),
        widget=forms.TextInput(attrs={"autocomplete": "off", **NOT_GUESSED}),
    )
    here = forms.ModelChoiceField(
        Club.objects.order_by("name"),
        label=gettext_lazy("Club"),
        required=False,
        empty_label=gettext_lazy("A new club"),
        to_field_name="slug",
        help_text=gettext_lazy("These came in with imported events."),
    )
    club = forms.CharField(
        label=gettext_lazy("Name of the club"),
        max_length=120,
        required=False,
        help_text=gettext_lazy("As it stands on results and slips."),
    )
    name = forms.CharField(
        label=gettext_lazy("Your name"),
        max_length=120,
        help_text=gettext_lazy("As others should read it."),
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
    )
    username = username_field("username")
    password = password_field(gettext_lazy("Password"), help_text=PASSWORD_HELP)
    again = password_field(gettext_lazy("Password once more"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not Club.objects.exists():
            del self.fields["here"]
            self.fields["club"].required = True

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if data.get("password") and data.get("again") and data["password"] != data["again"]:
            self.add_error("again", gettext("It differs from the password. Write the same one twice."))
        return data


class ClubForm(ServiceForm):
    """A club's name."""

    name = forms.CharField(
        label=gettext_lazy("Club"), max_length=120, help_text=gettext_lazy("As it stands on results and slips.")
    )


class SeasonForm(ServiceForm):
    """A season's name."""

    name = forms.CharField(
        label=gettext_lazy("Season"),
        max_length=80,
        help_text=gettext_lazy("Often the year. Points and fish of its events are added up together."),
    )


class WaterForm(ServiceForm):
    """A water."""

    name = forms.CharField(
        label=gettext_lazy("Water"), max_length=120, help_text=gettext_lazy("The lake, reservoir or river stretch.")
    )
    elevation_ft = forms.IntegerField(
        label=gettext_lazy("Elevation"),
        required=False,
        help_text=gettext_lazy("Height of the surface above the sea. The higher, the less oxygen the water can hold."),
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )

    def __init__(self, *args: Any, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["elevation_ft"].unit = "ft"  # type: ignore[attr-defined]


class MemberForm(ServiceForm):
    """A new member."""

    name = forms.CharField(
        label=gettext_lazy("Name"), max_length=120, help_text=gettext_lazy("As others should read it.")
    )
    username = username_field("off")
    password = password_field(
        gettext_lazy("First password"),
        required=False,
        help_text=gettext_lazy(
            "Tell it to the person, who changes it after the first sign-in. "
            "Blank only when the person has a user name on this site already, from another club."
        ),
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
        gettext_lazy("New first password"),
        help_text=gettext_lazy("Tell it to the person; every device of theirs is signed out."),
    )


class RemoveForm(ServiceForm):
    """Nothing to write: a member, or another thing, is taken out."""
