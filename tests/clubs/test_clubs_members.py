"""Members: brought in, given another role or password, taken out; one director always stays."""

import re

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import SecurityEntry, User
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club, Invitation, Membership

pytestmark = pytest.mark.django_db
NEW = {
    "name": "Rob Castellan",
    "username": "r.castellan",
    "role": Role.WEIGH_OFFICIAL,
}


@pytest.fixture
def club() -> Club:
    return world.club()


@pytest.fixture
def director(club: Club) -> Client:
    return world.member(club, username="mara")


def bring_in(director: Client, **said: str) -> str:
    answer = director.post(reverse("clubs:members_new", args=["alder"]), NEW | said, follow=True)
    return answer.content.decode()


def first_password(page: str) -> str:
    found = re.search(r">((?:[a-z]{4}-){4}[a-z]{4})<", page)
    assert found
    return found[1]


def act(director: Client, membership: Membership, **said: str) -> str:
    where = reverse("clubs:member", args=["alder", membership.pk])
    return director.post(where, said, follow=True).content.decode()


def own(username: str = "mara") -> Membership:
    return Membership.objects.get(user__username=username, club__slug="alder")


def test_a_person_is_brought_in_and_can_sign_in(director: Client) -> None:
    said = bring_in(director)
    assert "Rob Castellan is weigh official of Alder Crappie Club." in said
    assert "Two members." in director.get(reverse("clubs:members", args=["alder"])).content.decode()
    assert Client().login(username="r.castellan", password=first_password(said))
    entry = HistoryEntry.objects.get(act="member.added")
    assert (entry.actor, entry.subject, entry.details) == ("mara", "r.castellan", {"role": "weigh_official"})


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"username": "mara"}, "The person mara is a member of Alder Crappie Club already"),
        ({"username": "ines amaro"}, "Write letters, figures"),
        ({"name": "\u200bRob Castellan"}, "nobody sees"),
        ({"role": "king"}, "Select a valid choice"),
        ({"role": ""}, "Nothing is chosen"),
    ],
)
def test_a_person_who_cannot_be_brought_in(director: Client, said: dict[str, str], sentence: str) -> None:
    page = bring_in(director, **said)
    assert sentence in page and 'Rob Castellan"' in page
    assert Membership.objects.count() == 1 and User.objects.count() == 1 and not HistoryEntry.objects.exists()


def test_someone_of_another_club_is_asked_and_no_member_before_the_yes(director: Client) -> None:
    world.stranger()
    known = User.objects.exclude(username="mara").get()
    assert "is asked, and a member" in bring_in(director, username=known.username, role=Role.CLUB_REVIEWER)
    assert "is asked already" in bring_in(director, username=known.username)
    assert Membership.objects.filter(club__slug="alder").count() == 1
    theirs = world.signed_in(known)
    assert theirs.get(reverse("events:club", args=["alder"])).status_code == 404
    page = theirs.get(reverse("events:mine")).content.decode()
    answer = re.search(r'action="(/invitations/\d+/)"', page)
    assert "mara asks you to join as club reviewer" in page and answer
    assert director.post(answer[1], {"answer": "yes"}).status_code == 302 and Membership.objects.count() == 2
    assert (
        "You are a member of Alder Crappie Club now."
        in theirs.post(answer[1], {"answer": "yes"}, follow=True).content.decode()
    )
    assert own(known.username).role == Role.CLUB_REVIEWER
    known.refresh_from_db()
    assert known.check_password("a pass phrase") and not known.first_password


def test_who_is_asked_may_decline(director: Client) -> None:
    world.stranger()
    known = User.objects.exclude(username="mara").get()
    bring_in(director, username=known.username)
    answer = reverse("clubs:answer", args=[Invitation.objects.get().pk])
    theirs = world.signed_in(known)
    assert "You declined to join" in theirs.post(answer, {"answer": "no"}, follow=True).content.decode()
    assert "This invitation was used" in theirs.post(answer, {"answer": "yes"}, follow=True).content.decode()
    assert Membership.objects.filter(club__slug="alder").count() == 1


def test_a_role_is_changed_with_its_history(director: Client) -> None:
    bring_in(director)
    assert "Rob Castellan is fish-care official." in act(
        director, own("r.castellan"), act="role", role=Role.FISH_CARE_OFFICIAL
    )
    assert own("r.castellan").role == Role.FISH_CARE_OFFICIAL
    entry = HistoryEntry.objects.get(act="member.role")
    assert entry.details == {"before": "weigh_official", "after": "fish_care_official"}


@pytest.mark.parametrize("said", [{"act": "role", "role": Role.CLUB_REVIEWER}, {"act": "remove"}])
def test_the_last_director_stays(director: Client, said: dict[str, str]) -> None:
    bring_in(director)
    page = act(director, own(), **said)
    assert "The club needs a director, and mara is the only one: give another member that role first." in page
    assert own().role == Role.DIRECTOR
    assert not HistoryEntry.objects.filter(act__in=("member.role", "member.removed")).exists()


def test_with_two_directors_one_may_go(director: Client) -> None:
    bring_in(director, role=Role.DIRECTOR)
    said = act(director, own(), act="remove")
    assert "mara is no longer a member" in said and "You are not a member of a club yet." in said
    assert director.get(reverse("events:club", args=["alder"])).status_code == 404
    assert own("r.castellan").role == Role.DIRECTOR
    assert HistoryEntry.objects.get(act="member.removed").sentence == "mara is no longer a member of Alder Crappie Club"


def test_a_forgotten_password_is_replaced_by_a_director(director: Client) -> None:
    first = first_password(bring_in(director))
    theirs = Client()
    theirs.login(username="r.castellan", password=first)
    second = first_password(act(director, own("r.castellan"), act="password"))
    assert second != first and Client().login(username="r.castellan", password=second)
    assert theirs.get(reverse("accounts:password")).status_code == 302
    assert User.objects.get(username="r.castellan").first_password
    assert HistoryEntry.objects.filter(act="member.password", club_id=own().club_id).count() == 1
    assert second not in str(list(HistoryEntry.objects.values())) + str(list(SecurityEntry.objects.values()))


def test_nobody_gives_a_password_to_someone_of_another_club_too(director: Client, club: Club) -> None:
    world.stranger()
    known = User.objects.exclude(username="mara").get()
    Membership.objects.create(user=known, club=club, role=Role.CLUB_REVIEWER)
    said = act(director, own(known.username), act="password")
    assert "it opens another club too" in said
    known.refresh_from_db()
    assert known.check_password("a pass phrase")


def test_another_clubs_member_is_not_there(director: Client) -> None:
    world.stranger()
    other = Membership.objects.exclude(club__slug="alder").get()
    assert director.get(reverse("clubs:member", args=["alder", other.pk])).status_code == 404
    assert director.post(reverse("clubs:member", args=["alder", other.pk]), {"act": "remove"}).status_code == 404
    assert Membership.objects.filter(pk=other.pk).exists()


def test_the_list_asks_the_database_as_often_for_one_as_for_forty(director: Client, club: Club) -> None:
    where = reverse("clubs:members", args=["alder"])
    director.get(where)
    with CaptureQueriesContext(connection) as one:
        director.get(where)
    for number in range(40):
        Membership.objects.create(user=User.objects.create(username=f"m{number}"), club=club, role=Role.CLUB_REVIEWER)
    with CaptureQueriesContext(connection) as forty:
        page = director.get(where).content.decode()
    assert "m39" in page
    assert len(forty) == len(one)
