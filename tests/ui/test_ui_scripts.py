"""The scripts in a real browser, under the site's content policy."""

import threading
from datetime import datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from django.contrib.staticfiles import finders
from django.template import engines

POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'"
TYPES = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}
LIVE = """{% extends "base_public.html" %}
{% block scripts %}{% include "ui/htmx.html" %}{% endblock %}
{% block content %}
<p class="as-of" data-live-note data-zone="Asia/Kathmandu" role="status">opened</p>
<div data-live data-etag='"1"' hx-get="/part" hx-trigger="every 500ms"><p id="first">first</p></div>
{% endblock %}"""
WAITS = """{% extends "base_public.html" %}{% load static %}
{% block scripts %}<script type="module" src="{% static 'weighin/js/site/waits.js' %}"></script>{% endblock %}
{% block content %}<form action="/slow" method="get"><button>Import the event</button>
{% include "operations/import_wait.html" %}</form>{% endblock %}"""
NOTE = "[data-live-note]"

pytestmark = pytest.mark.browser


class Site(ThreadingHTTPServer):
    """The pieces as pages, with the content policy; ``part`` is how the live part answers."""

    pages: dict[str, str]
    part = "same"
    asked: list[str | None]


class Answer(BaseHTTPRequestHandler):
    server: Site

    def do_GET(self):
        path = self.path.partition("?")[0]
        if path == "/part":
            self.server.asked.append(self.headers.get("If-None-Match"))
            return self.answer_part()
        if path.startswith("/static/"):
            file = Path(finders.find(path.removeprefix("/static/")))
            return self.answer(200, file.read_bytes(), TYPES[file.suffix])
        return self.answer(200, self.server.pages[path.strip("/")].encode(), "text/html; charset=utf-8")

    def answer_part(self):
        if self.server.part == "down":
            return self.answer(503, b"", "text/html")
        if self.server.part == "same" and self.headers.get("If-None-Match") == '"1"':
            return self.answer(304, b"", "text/html", ETag='"1"')
        return self.answer(200, b'<p id="second">second</p>', "text/html", ETag='"2"')

    def answer(self, status, body, kind, **more):
        self.send_response(status)
        fields = {"Content-Type": kind, "Content-Length": str(len(body)), "Content-Security-Policy": POLICY}
        for name, value in {**fields, **more}.items():
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *words):
        """Quiet: the tests say what matters."""


@pytest.fixture(scope="module")
def site(pages):
    server = Site(("127.0.0.1", 0), Answer)
    of = engines["django"].from_string
    server.pages = {**pages, "live": of(LIVE).render({}), "waits": of(WAITS).render({})}
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield server
    server.shutdown()
    server.server_close()


@pytest.fixture
def page(window, site):
    site.part, site.asked = "same", []
    return window(f"http://127.0.0.1:{site.server_address[1]}")


def test_the_light_is_kept_on_the_device(page):
    page.goto("/ledger")
    assert page.get_attribute("html", "data-light") == "paper"
    page.click("text=Sun")
    assert page.get_attribute(".light button[value=sun]", "aria-pressed") == "true"
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert ground == "rgb(255, 255, 255)"
    page.goto("/tools")
    assert page.get_attribute("html", "data-light") == "sun"
    assert page.get_attribute(".light button[value=paper]", "aria-pressed") == "false"


def test_a_sum_opens_under_its_row_and_closes(page):
    page.goto("/ledger")
    assert page.is_visible("#why-27") and not page.is_visible("#why-18")
    page.focus("[data-why='18']")
    page.keyboard.press("Enter")
    assert page.is_visible("#why-18")
    assert page.get_attribute("[data-why='18']", "aria-expanded") == "true"
    page.click("[data-why='27']")
    assert not page.is_visible("#why-27") and page.inner_text("[data-why='27']") == "why"


def test_an_unchanged_answer_leaves_the_part_alone_and_a_new_one_is_shown(page, site):
    page.goto("/live")
    page.wait_for_selector(f"{NOTE}:has-text('as of')")
    there = {datetime.now(ZoneInfo("Asia/Kathmandu")) - timedelta(minutes=late) for late in (0, 1)}
    assert page.inner_text(NOTE).replace("\N{NO-BREAK SPACE}", " ") in {f"as of {clock:%-I:%M %p}" for clock in there}
    assert page.is_visible("#first") and set(site.asked) == {'"1"'}
    site.part = "changed"
    page.wait_for_selector("#second")
    assert page.get_attribute("[data-live]", "data-etag") == '"2"'


def test_a_lost_server_is_said_in_words_and_the_last_page_stays(page, site):
    page.goto("/live")
    site.part = "down"
    page.wait_for_selector(f"{NOTE}:has-text('no answer since')")
    assert page.inner_text(NOTE).endswith("This page asks again by itself.")
    assert page.is_visible("#first")
    site.part = "same"
    page.wait_for_selector(f"{NOTE}:not(:has-text('no answer'))")


def test_a_form_whose_answer_takes_long_says_so_once_it_is_sent(page):
    page.route("**/slow*", lambda route: route.fulfill(status=204))  # the page stays: nothing came yet
    page.goto("/waits")
    assert not page.is_visible("progress")
    page.click("text=Import the event")
    page.wait_for_selector("progress", state="visible")
    page.goto("/tools")
    page.go_back()
    page.wait_for_selector("text=Import the event")
    assert not page.is_visible("progress")


@pytest.mark.parametrize("width", [320, 390, 641, 820, 1280])
def test_no_page_is_wider_than_its_window_in_the_largest_type(chromium, site, pages, width):
    context = chromium.new_context(
        base_url=f"http://127.0.0.1:{site.server_address[1]}", viewport={"width": width, "height": 800}
    )
    context.add_init_script("localStorage.setItem('light', 'sun')")
    page = context.new_page()
    for name in pages:
        page.goto(f"/{name}")
        assert page.evaluate("document.documentElement.scrollWidth") <= width, name
    context.close()
