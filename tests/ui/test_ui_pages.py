"""Pages obey the site's content policy, name their parts, and keep what was written in a form."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from django import forms
from django.conf import settings
from django.contrib.staticfiles import finders
from django.test import RequestFactory
from django_tables2 import RequestConfig

from weighin.ui.tables import FigureColumn, RuledTable

OWN = Path(finders.find("weighin/icon.svg")).parent
SHEETS = sorted(OWN.rglob("*.css"))
SCRIPTS = sorted((OWN / "js").rglob("*.js"))


class Tags(HTMLParser):
    """Start tags in order, each with its attributes, and the words inside script and style."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.inside = ""
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        if self.lasttag in ("script", "style"):
            self.inside += data.strip()

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attrs for name, attrs in self.tags if name == tag]


def test_no_page_carries_style_or_script_of_its_own(pages):
    for name, html in pages.items():
        tags = Tags(html)
        assert not tags.inside, name
        assert not tags.all("style"), name
        assert all(attrs.get("src") for attrs in tags.all("script")), name
        for tag, attrs in tags.tags:
            assert "style" not in attrs, (name, tag)
            assert not [key for key in attrs if key.startswith("on")], (name, tag)


def test_ids_are_unique_and_every_reference_is_met(pages):
    for name, html in pages.items():
        tags = Tags(html)
        ids = [attrs["id"] for _, attrs in tags.tags if "id" in attrs]
        assert len(ids) == len(set(ids)), name
        for _, attrs in tags.tags:
            for key in ("for", "aria-describedby", "aria-labelledby", "aria-controls"):
                assert set((attrs.get(key) or "").split()) <= set(ids), (name, key, attrs)


def test_each_page_has_one_headline_a_title_and_a_way_past_the_head(pages):
    for name, html in pages.items():
        tags = Tags(html)
        assert len(tags.all("h1")) == 1, name
        assert re.search(r"<title>\w[^<]+</title>", html), name
        assert len(tags.all("main")) == 1, name
        if name != "500":
            assert {"class": "skip", "href": "#page"} in tags.all("a"), name


def test_light_is_chosen_before_the_page_is_drawn(pages):
    for name, html in pages.items():
        head = html.partition("</head>")[0]
        (light,) = [tag for tag in Tags(head).all("script") if "light" in (tag["src"] or "")]
        assert "defer" not in light and "async" not in light, name
        assert head.index("light.js") < head.index("stylesheet"), name


def test_htmx_writes_no_style_and_runs_no_code(pages):
    (config,) = [tag["content"] for tag in Tags(pages["tools"]).all("meta") if tag.get("name") == "htmx-config"]
    assert '"includeIndicatorStyles":false' in config
    assert '"allowEval":false' in config and '"allowScriptTags":false' in config


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.name)
def test_a_style_sheet_reaches_nothing_outside(sheet):
    css = sheet.read_text()
    assert "url(" not in css and "@import" not in css and "//" not in css and "@font-face" not in css
    if sheet.name != "tokens.css":
        assert not re.search(r"#[0-9A-Fa-f]{3,8}\b|\brgba?\(|\bhsla?\(", css), "colours belong in tokens.css"
    assert css.count("{") == css.count("}")


def test_every_token_used_is_defined():
    defined = set(re.findall(r"(--[\w-]+):", (OWN / "css" / "site" / "tokens.css").read_text()))
    for sheet in SHEETS:
        used = set(re.findall(r"var\((--[\w-]+)", sheet.read_text()))
        own = set(re.findall(r"(--[\w-]+):", sheet.read_text()))
        assert used <= defined | own, sheet.name


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.name)
def test_a_script_reaches_nothing_outside(script):
    text = script.read_text()
    assert not re.search(r"https?:|\beval\(|innerHTML|document\.write|\.style\b", text)


def test_static_files_a_page_names_exist(pages):
    for name, html in pages.items():
        tags = Tags(html)
        links = [tag["href"] for tag in tags.all("link")] + [tag["src"] for tag in tags.all("script")]
        for link in links:
            assert link.startswith(settings.STATIC_URL), (name, link)
            assert finders.find(link.removeprefix(settings.STATIC_URL)), (name, link)


def test_a_refused_form_keeps_what_was_written_and_links_to_each_fault(pages):
    html = pages["tools"]
    tags = Tags(html)
    boat = next(tag for tag in tags.all("input") if tag.get("name") == "boat")
    assert boat["value"] == "-2" and boat["aria-invalid"] == "true"
    assert boat["aria-describedby"] == "id_boat_helptext id_boat_error"
    assert {"href": "#id_boat"} in tags.all("a") and {"href": "#id_standing"} in tags.all("a")
    assert 'role="alert"' in html and "Not saved." in html
    tare = next(tag for tag in tags.all("input") if tag.get("name") == "tare")
    assert tare["value"] == "0.25"
    assert '<span class="unit">lb</span>' in html


class Few(forms.Form):
    words = forms.CharField(max_length=3)
    number = forms.IntegerField(max_value=9)
    at = forms.TimeField()
    tick = forms.BooleanField()
    one = forms.ChoiceField(choices=[("a", "A")])
    own = forms.CharField(error_messages={"required": "Name the boat."})


def test_complaints_say_what_to_do():
    blank = Few({}).errors
    assert blank["words"] == ["This is blank. Write it here."] == blank["number"] == blank["at"]
    assert blank["tick"] == ["This box must be checked to go on."]
    assert blank["one"] == ["Nothing is chosen. Choose one."]
    assert blank["own"] == ["Name the boat."]
    wrong = Few({"words": "four", "number": "12", "at": "noon"}).errors
    assert wrong["words"] == ["It has 4 characters. Shorten it to 3 or fewer."]
    assert wrong["number"] == ["It is 12. Write 9 or less."]
    assert wrong["at"] == ["Write a time such as 2:30 PM."]


def test_shared_pages_carry_nothing_of_the_reader(pages):
    for name in ("ledger", "figures"):
        assert "Slip 25 is saved." not in pages[name] and "Sign in" not in pages[name], name
        assert "csrfmiddlewaretoken" not in pages[name], name
    assert "Slip 25 is saved." in pages["opening"]
    assert '<p class="stop">Not kept. Boat 27 has a slip already.</p>' in pages["opening"]


def test_a_table_says_its_order_its_pages_and_what_will_be_in_it(pages):
    html = pages["tools"]
    assert "Page 1 of 3, rows 1 to 3 of 7" in html and 'rel="next"' in html and "Previous page" not in html
    assert "No team is entered yet." in html
    assert '<th scope="row" role="rowheader" class="name">' in re.sub(r"\s+", " ", html)
    assert Tags(html).all("table")[0]["class"] == "ruled stacks"


def test_the_column_a_table_is_ordered_by_is_named(sorted_by_fish):
    assert 'aria-sort="descending"' in sorted_by_fish and sorted_by_fish.count("aria-sort") == 1


@pytest.fixture
def sorted_by_fish():
    class Boats(RuledTable):
        boat = FigureColumn()
        fish = FigureColumn()

    request = RequestFactory().get("/", {"sort": "-fish"})
    table = Boats([{"boat": 1, "fish": 3}, {"boat": 2, "fish": 7}])
    RequestConfig(request, paginate=False).configure(table)
    html = table.as_html(request)
    assert html.index(">7<") < html.index(">3<")
    return html


def test_error_pages_say_what_to_do_next(pages):
    for name in ("400", "403", "403_csrf", "404", "500"):
        assert re.search(r"[Rr]eload|[Gg]o back|[Cc]heck the address|Ask the", pages[name]), name
        assert "!" not in re.sub(r"<!doctype html>", "", pages[name]), name
