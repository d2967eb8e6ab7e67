"""The table in Spanish: switched on the page itself, its slips kept, and opened again without the link in the same language."""

from typing import Any

from browser.scales import PAGE, briefed, open_table, ready, weigh
from patience import until
from served import Site

# Whether the copy by which the page opens alone is in Spanish
IN_SPANISH = """async (page) => {
  for (const name of await caches.keys()) {
    const held = await (await caches.open(name)).match(page);
    if (held && (await held.text()).includes('<html lang="es"')) return true;
  }
  return false;
}"""


def test_a_tablet_is_switched_and_opens_without_the_link(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address)
    sign_in(page, "scales")
    open_table(page)
    briefed(page)
    page.wait_for_selector("html[data-alone]")
    page.context.set_offline(True)
    weigh(page, 79)
    # Without the link the page stays as it is, and so does the slip
    page.click("button[name=language]")
    ready(page)
    assert page.locator("html[lang=en]").count() == page.locator("#slips > li").count() == 1
    page.context.set_offline(False)
    page.click("button[name=language]")
    ready(page)
    assert page.locator("html[lang=es]").count() == page.locator("#slips > li").count() == 1
    assert page.inner_text("#sum").strip().startswith("El total espera")
    until(lambda: page.evaluate(IN_SPANISH, PAGE))
    page.context.set_offline(True)
    page.goto(PAGE)
    ready(page)
    assert page.locator("html[lang=es]").count() == 1
    assert page.inner_text("#sum").strip().startswith("El total espera")
