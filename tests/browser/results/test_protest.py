"""A protest from the posting to version 2, as a director goes through it on the pages of the demo."""

import re
from typing import Any

EVENT = "/events/leaf-fall-classic-2026"
PUBLIC = "/results/leaf-fall-classic-2026"
NEVER = ("Cedar Secretperson", "lifted on a line")


def answered(page: Any, why: str) -> None:
    """Every open question overruled, and the page's word that it is meant."""
    for field in page.query_selector_all(".publishing input[type=text]"):
        field.fill(why)
    page.check("[name=sure]")
    page.click(".publishing button.button")


def test_a_protest_from_posting_to_version_2(window: Any, own_site: Any, sign_in: Any) -> None:
    page, crowd = window(own_site.address), window(own_site.address)
    sign_in(page, "director")
    page.goto(f"{EVENT}/publish/")
    page.click("button:has-text('Post the provisional result')")
    assert "Posted as provisional" in page.inner_text("main")
    crowd.goto(f"{PUBLIC}/")
    assert "Protests in writing until" in crowd.inner_text("main")
    crowd.goto(f"{PUBLIC}/screen/")
    assert "protests until" in crowd.inner_text(".state").lower()

    page.goto(f"{EVENT}/standings/")
    first = page.inner_text("table .boat >> nth=1").strip()
    boat = re.sub(r"\D", "", first) or "1"
    page.goto(f"{EVENT}/results/protests/")
    page.fill("[name=who]", NEVER[0])
    page.fill("[name=matter]", NEVER[1])
    page.fill("[name=boat]", boat)
    page.check("[name=could][value=lower]")
    page.click("button:has-text('Save the protest')")
    assert "One protest is open." in page.inner_text("main")
    page.goto(f"{EVENT}/money/pay-outs/")
    assert "waits for protest 1" in page.inner_text("main")
    page.goto(f"{EVENT}/publish/")
    assert "Protest 1 is not ruled on." in page.inner_text("main")

    page.goto(f"{EVENT}/results/protests/1/")
    page.check("[name=outcome][value=upheld]")
    page.fill("[name=words]", "Seen by two on the bank")
    page.fill("[name=ruled_by]", "The committee")
    page.click("button:has-text('Save the ruling')")
    assert "Every protest has a ruling." in page.inner_text("main")
    page.goto(f"{EVENT}/money/pay-outs/")
    assert "waits for protest" not in page.inner_text("main")
    page.goto(f"{EVENT}/publish/")
    assert "upheld, and nothing has changed" in page.inner_text("main")
    answered(page, "The committee lets it stand until Monday")
    assert "version 1" in page.inner_text("main")

    page.goto(f"{EVENT}/teams/{boat}/")
    page.check("[name=status][value=disqualified]")
    page.click("main form button.button")
    page.goto(f"{EVENT}/publish/")
    assert "What changes with it" in page.inner_text("main") and "to disqualified" in page.inner_text("main")
    answered(page, "Protest 1 upheld")

    crowd.goto(f"{PUBLIC}/official/2/")
    said = crowd.inner_text("main")
    assert "What changed since version 1" in said and "to disqualified" in said and "Protest 1 upheld" in said
    crowd.goto(f"{PUBLIC}/")
    said += crowd.inner_text("main")
    assert "Official results, version 2." in said
    assert not any(word in said for word in NEVER)
