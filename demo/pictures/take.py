"""Draw the pictures: ``python demo/pictures/take.py icons`` the site's icons, ``python demo/pictures/take.py`` those of the README.

The latter are of the demo, served for the while, in a browser: tests/requirements.txt has what drives it.
"""

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from PIL import Image, ImageDraw

ROOT = Path(__file__).resolve().parents[2]
PICTURES = ROOT / "demo" / "pictures"
STATIC = ROOT / "weighin" / "ui" / "static" / "weighin"
PORT = 8299
PAPER, PEN, INK = "#F4F6F0", "#3A2F96", "#15202A"
# What each shows: its page, the width and height of the window, and what is opened first
SHOWN = {
    "standings": ("/results/high-summer-2026/standings/", 1180, 760),
    "mortality": ("/clubs/dunnock-valley-crappie-club/seasons/2026/mortality/", 1180, 860),
    "table": ("/events/today-at-merrow-lake-2026/table/", 1180, 820),
}
COLORS = 48  # enough for text, and a third of the bytes


def icons() -> None:
    """The icon of ``icon.svg`` in the sizes that devices want, and the picture of pages that have none of their own."""
    for size, share, name in ((192, 1.0, "icon-192"), (512, 0.75, "icon-512")):
        image = Image.new("RGB", (size, size), PAPER)
        _icon(image, size * (1 - share) / 2, size * share)
        image.save(STATIC / f"{name}.png", optimize=True)
    image = Image.new("RGB", (1200, 630), PAPER)
    _icon(image, 285, 630)
    image.save(STATIC / "og.png", optimize=True)


def _icon(image: Image.Image, left: float, size: float) -> None:
    draw, unit, top = ImageDraw.Draw(image), size / 32, (image.height - size) / 2

    def box(x: float, y: float, width: float, height: float, color: str) -> None:
        at = (left + x * unit, top + y * unit)
        draw.rectangle((*at, at[0] + width * unit - 1, at[1] + height * unit - 1), color)

    for x in (9, 13):
        draw.rectangle((left + x * unit, 0, left + (x + 2) * unit - 1, image.height), PEN)
    for y in (11, 18, 25):
        box(18, y, 10, 2, INK)


def pictures() -> None:
    """The pictures of the README, from a demo of their own."""
    from playwright.sync_api import sync_playwright

    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as data:
        own = {**os.environ, "WEIGHIN_DATA": data}
        manage = [sys.executable, str(ROOT / "manage.py")]
        for command in ("migrate", "load_demo"):
            subprocess.run([*manage, command, "-v0"], check=True, env=own)
        told = subprocess.run([*manage, "load_demo", "--log-ins"], check=True, env=own, capture_output=True, text=True)
        name, password = next(line.split()[:2] for line in told.stdout.splitlines() if line.split()[:1] == ["director"])
        site = subprocess.Popen([*manage, "serve", "--port", str(PORT)], env=own, stdout=subprocess.PIPE, text=True)
        try:
            assert site.stdout is not None
            site.stdout.readline()  # it says its address once it serves
            with sync_playwright() as driver:
                browser = driver.chromium.launch(
                    executable_path=os.environ.get("WEIGHIN_CHROMIUM"), args=["--no-sandbox", "--disable-gpu"]
                )
                page = browser.new_page(timezone_id="America/Chicago")
                _sign_in(page, name, password)
                _event_of_today(page)
                for picture, (path, wide, high) in SHOWN.items():
                    _take(page, picture, path, wide, high)
                browser.close()
        finally:
            site.terminate()
            site.wait()


def _sign_in(page: Any, name: str, password: str) -> None:
    page.goto(f"http://127.0.0.1:{PORT}/sign-in/")
    page.fill("[name=username]", name)
    page.fill("[name=password]", password)
    page.press("[name=password]", "Enter")
    page.wait_for_url("**/clubs/")


def _event_of_today(page: Any) -> None:
    """The tablet weighs on the event's own day alone."""
    page.goto(f"http://127.0.0.1:{PORT}/events/leaf-fall-classic-2026/next/")
    page.fill("[name=name]", "Today at Merrow Lake")
    page.fill("[name=date]", page.evaluate("new Date().toLocaleDateString('sv')"))
    page.click("main form button.button")
    page.wait_for_url("**/setup/")
    assert SHOWN["table"][0].split("/")[2] in page.url, page.url


def _take(page: Any, picture: str, path: str, wide: int, high: int) -> None:
    page.set_viewport_size({"width": wide, "height": high})
    page.goto(f"http://127.0.0.1:{PORT}{path}")
    page.wait_for_load_state("networkidle")
    if picture == "table":
        for field, written in (("boat", "7"), ("alive", "6"), ("dead", "1"), ("initials", "RM, HD"), ("gross", "8.02")):
            page.fill(f"#{field}", written)
    file = PICTURES / f"{picture}.png"
    page.screenshot(path=file)
    Image.open(file).convert("RGB").quantize(COLORS).save(file, optimize=True)


if __name__ == "__main__":
    icons() if sys.argv[1:] == ["icons"] else pictures()
