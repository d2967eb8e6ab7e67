"""Signing in and out with the keyboard alone, on the demo."""

import pytest

from weighin.accounts.domain.roles import Role


@pytest.mark.parametrize("username", ["director", "scales", "fishcare", "reviewer"])
def test_each_of_the_clubs_people_finds_the_club(page, sign_in, people, username):
    assert people[username]["role"] in Role.values
    sign_in(page, username)
    page.goto("/clubs/")
    assert people[username]["club"] in page.inner_text("main")


def test_a_wrong_password_is_said_and_the_name_stays(page):
    page.goto("/sign-in/")
    page.fill("[name=username]", "director")
    page.fill("[name=password]", "not this one")
    page.press("[name=password]", "Enter")
    page.wait_for_selector("[role=alert]")
    assert page.input_value("[name=username]") == "director"


def test_a_tablet_by_name_on_plain_http_signs_in(window, site, sign_in):
    page = window(f"http://lake.test:{site.port}")
    sign_in(page, "scales")
    assert page.evaluate("window.isSecureContext") is False
