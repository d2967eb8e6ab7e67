"""The one list of places: which rows it folds, what stands in the margin, what is escaped."""

from django.template.loader import render_to_string
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.ui.places import LEAST_FOLDED, Column, Places, Row, place_said, written

COLUMNS = (
    Column("place", "Place"),
    Column("team", "Team"),
    Column("num", "Big fish", "Big fish"),
    Column("total", "Total"),
)


def shown(count: int, **more: object) -> str:
    rows = [
        Row([place_said(n, ""), f"<b>Team {n}", "1.20", "9.50"], f"boat-{n}", current=n == 2)
        for n in range(1, count + 1)
    ]
    return render_to_string("ui/places.html", {"list": Places("Places", COLUMNS, rows, "Nobody yet.", **more)})  # type: ignore[arg-type]


def test_rows_are_named_by_their_team_and_say_their_figures_on_a_phone() -> None:
    html = shown(2)
    assert '<th role="rowheader" scope="row" class="team">&lt;b&gt;Team 1</th>' in html
    assert '<td role="cell" class="num" data-label="Big fish">1.20</td>' in html and 'class="current"' in html
    assert "<details" not in html


def test_rows_beyond_the_first_are_folded_where_that_saves_room() -> None:
    assert "beyond" not in shown(12 + LEAST_FOLDED - 1, first=12, all_said="All")
    html = shown(12 + LEAST_FOLDED, first=12, all_said="All 17 teams")
    assert html.count('class="beyond"') == LEAST_FOLDED and "<summary>All 17 teams</summary>" in html


def test_an_empty_list_keeps_its_head_and_says_so() -> None:
    html = shown(0)
    assert "Nobody yet." in html and html.count("columnheader") == 4


def test_the_margin_has_the_place_or_the_word() -> None:
    assert place_said(3, "") == "3"
    assert place_said(3, "tied") == '3<span class="label">tied</span>'
    assert place_said(None, "withdrawn") == '<span class="word label">withdrawn</span>'
    assert place_said(None, "") == ""


def test_what_is_written_is_escaped_as_by_django() -> None:
    for parts in ((SafeString("<i>"), "<b>&\"'"), (7, None), ("a’b", format_html("{}", "<"))):
        assert written("{} <s>{}</s>", *parts) == format_html("{} <s>{}</s>", *parts)
    assert isinstance(written("{}", "<"), SafeString)
