"""Forms of clubs, seasons, waters and members."""

from typing import Any

from django import forms
from django.conf import settings
from django.utils.translation import gettext_lazy

from weighin.accounts.domain.roles import TABLE, Role
from weighin.accounts.forms import NewPasswordForm
from weighin.clubs.models import Club, Degrees, Hours, Membership
from weighin.ui.forms.service import ServiceForm

NOT_GUESSED = {"autocapitalize": "none", "spellcheck": "false"}


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
        Role.DIRECTOR: gettext_lazy("adds events, rules and teams, publishes, manages the club: everything"),
        Role.DESK_OFFICIAL: gettext_lazy("adds teams, their fees and how they are reached"),
        Role.WEIGH_OFFICIAL: gettext_lazy("writes and corrects weigh slips"),
        Role.FISH_CARE_OFFICIAL: gettext_lazy("writes care notes, tanks and releases"),
        Role.CLUB_REVIEWER: gettext_lazy("reads everything and the history, writes nothing"),
    }
    return [(role.value, f"{role.label}: {said[role]}") for role in TABLE]


class BeginForm(NewPasswordForm):
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
    field_order = ("word", "here", "club", "name", "username", "password", "again")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not Club.objects.exists():
            del self.fields["here"]
            self.fields["club"].required = True


class ClubForm(ServiceForm):
    """A club's name."""

    name = forms.CharField(
        label=gettext_lazy("Club"), max_length=120, help_text=gettext_lazy("As it stands on results and slips.")
    )


class FiguresForm(ServiceForm):
    """How a club writes money, times and temperatures, and in which language it writes to teams."""

    currency = forms.CharField(
        label=gettext_lazy("Currency sign"),
        max_length=5,
        help_text=gettext_lazy("Stands before every amount, such as $."),
        widget=forms.TextInput(attrs={"size": "5", "autocomplete": "off"}),
    )
    hours = forms.TypedChoiceField(
        label=gettext_lazy("Clock"), choices=Hours.choices, coerce=int, widget=forms.RadioSelect
    )
    degrees = forms.ChoiceField(
        label=gettext_lazy("Temperatures"),
        choices=Degrees.choices,
        required=False,
        widget=forms.RadioSelect,
        help_text=gettext_lazy("A temperature written without a unit is read in this one."),
    )
    language = forms.ChoiceField(
        label=gettext_lazy("Language of messages"),
        choices=settings.LANGUAGES,
        required=False,
        widget=forms.RadioSelect,
        help_text=gettext_lazy("E-mails to teams and texts to copy. Pages are in the language of each reader."),
    )


class SeasonForm(ServiceForm):
    """A season's name."""

    name = forms.CharField(
        label=gettext_lazy("Season"),
        max_length=80,
        help_text=gettext_lazy("Often the year. Points and fish of its events are added up together."),
    )
    water = forms.CharField(
        label=gettext_lazy("First lake"),
        required=False,
        max_length=120,
        help_text=gettext_lazy("The lake, reservoir or river stretch. More can be added at any time."),
    )

    def __init__(self, *args: Any, club: Club, **kwargs: Any):
        super().__init__(*args, **kwargs)
        if club.waters.exists():
            del self.fields["water"]


class WaterForm(ServiceForm):
    """A water."""

    name = forms.CharField(
        label=gettext_lazy("Lake"), max_length=120, help_text=gettext_lazy("The lake, reservoir or river stretch.")
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


class LinkForm(ServiceForm):
    """An invitation by a link."""

    name = forms.CharField(
        label=gettext_lazy("For whom"), max_length=120, help_text=gettext_lazy("So that you know the invitation again.")
    )
    role = role_field()


class MemberForm(ServiceForm):
    """A member by a user name."""

    name = forms.CharField(
        label=gettext_lazy("Name"), max_length=120, help_text=gettext_lazy("As others should read it.")
    )
    username = username_field("off")
    role = role_field()


class JoinForm(NewPasswordForm):
    """Who opens an invitation and is new here."""

    name = forms.CharField(
        label=gettext_lazy("Your name"),
        max_length=120,
        help_text=gettext_lazy("As others should read it."),
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
    )
    username = username_field("username")
    field_order = ("name", "username", "password", "again")


class SecondFactorForm(ServiceForm):
    """Whether the club's directors must have a second factor."""

    asked = forms.BooleanField(
        label=gettext_lazy("Directors must have a second factor"),
        required=False,
        help_text=gettext_lazy(
            "A code from their phone at every sign-in. Who has none sets it up at the next sign-in; on the day of an event that waits."
        ),
    )


class RoleForm(ServiceForm):
    """A member's role."""

    role = role_field()

    def __init__(self, *args: Any, membership: Membership, **kwargs: Any):
        super().__init__(*args, **{"initial": {"role": membership.role}, **kwargs})


class RemoveForm(ServiceForm):
    """Nothing to write: a press that is meant."""
