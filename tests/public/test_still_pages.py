"""A page without its server: links led elsewhere, and what would be dead left out."""

import pytest

from weighin.public.parsing.still import still


def lead(link: str) -> str | None:
    return {"/a/": "../a/index.html", "/pic.png": "pic.png", "/x?a=1&b='2'": "x.html?\"'"}.get(link)


def made(page: str, has_site: bool = False) -> str:
    return still(page, lead, has_site)


@pytest.mark.parametrize(
    ("page", "said"),
    [
        ('<a href="/a/">A</a>', '<a href="../a/index.html">A</a>'),
        ('<a class="x" href="/x?a=1&amp;b=\'2\'">A</a>', '<a class="x" href="x.html?&quot;&#x27;">A</a>'),
        ('<p>See <a href="/no/">that <b>page</b></a>.</p>', "<p>See that <b>page</b>.</p>"),
        ('<p><a class="button low" href="/no/">Go</a></p>', "<p></p>"),
        ('<p><a class="why" href="?why=1">why</a></p>', "<p></p>"),
        ('<nav><a href="/no/">Other</a> <a href="/a/">A</a></nav>', '<nav> <a href="../a/index.html">A</a></nav>'),
        ('<a href="/no.pdf">Print</a>!', "!"),
        ('<img src="/no.png" alt=""><img src="/pic.png" alt="">', '<img src="pic.png" alt="">'),
        ("<form><div><form></form><input></div></form><p>x</p>", "<p>x</p>"),
        ('<script type="module" src="/m.js"></script><script src="/pic.png" defer></script>', '<script src="pic.png" defer></script>'),
        ("<p>as of <span data-made>12:30</span></p>", "<p>as of </p>"),
        ("<!DOCTYPE html><p>a &amp; b &#8211; c<br></p>", "<!DOCTYPE html><p>a &amp; b &#8211; c<br></p>"),
        ('<svg viewBox="0 0 1 1"><path d="M0 0"/></svg>', '<svg viewBox="0 0 1 1"><path d="M0 0"/></svg>'),
        ('<script type="application/json">{"a": "<b>&amp;"}</script>', '<script type="application/json">{"a": "<b>&amp;"}</script>'),
        ('<div id="checked" data-check="/c" data-proof="/p">x</div>', '<div id="checked">x</div>'),
        ("<noscript><p>ask the site</p></noscript><p data-live>now <br>live</p><p>x</p>", "<p>x</p>"),
    ],
)  # fmt: skip
def test_what_becomes_of_it(page: str, said: str) -> None:
    assert made(page) == said


def test_with_a_site_to_link_to_what_is_live_stays() -> None:
    assert made('<p data-live>now <a href="/a/">A</a></p>', True) == '<p>now <a href="../a/index.html">A</a></p>'
    assert made("<noscript><p>ask</p></noscript>", True) == "<noscript><p>ask</p></noscript>"
