"""The page that checks a result, as it is served and saved, and its script under Node."""

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
import world
from django.contrib.staticfiles import finders
from django.test import Client

from weighin.events.models import Event
from weighin.proof.domain.canonical import printed
from weighin.proof.pages.checking import check_script, saved_page
from weighin.proof.queries.document import proof_document
from weighin.slips.services.slips import record_slip
from weighin.standings.services import publish_result, set_public
from weighin.ui.classic import NotClassic, classic_script
from weighin.ui.kept import KEEPER

pytestmark = pytest.mark.django_db


@pytest.fixture
def event() -> Event:
    event = world.event("Table <b>&amp;", slips=[world.slip(boat="1"), world.slip(boat="2", gross="9.10")])
    set_public(event, True, "mara")
    KEEPER.clear()
    return event


def opened(address: str) -> str:
    answer = Client().get(address)
    assert answer.status_code == 200
    return answer.content.decode()


def test_the_page_holds_the_proof_and_one_classic_script(event: Event) -> None:
    page = opened(f"/results/{event.slug}/check/")
    block = page.split('<script id="proof" type="application/json">')[1].split("</script>")[0]
    assert json.loads(block) == json.loads(json.dumps(proof_document(event)))
    assert '<script src="/check/check.js" defer></script>' in page
    script = opened("/check/check.js")
    assert "import " not in script and "export " not in script and script == check_script()


def test_the_saved_page_asks_for_nothing_else(event: Event) -> None:
    page = saved_page(proof_document(event))
    assert page == opened(f"/results/{event.slug}/check.html")
    assert " src=" not in page and " href=" not in page and page.count("<script") == 2
    block = page.split('type="application/json">')[1].split("</script>")[0]
    assert json.loads(block)["event"]["name"] == "Table <b>&amp;"
    answer = Client().get(f"/results/{event.slug}/check.html")
    assert answer["Content-Disposition"] == f'attachment; filename="{event.slug}-check.html"'


def test_a_printed_result_has_the_code_and_the_figures_of_its_version_alone(event: Event) -> None:
    publish_result(event, "mara")
    KEEPER.clear()
    page = opened(f"/results/{event.slug}/official/1/")
    assert printed(proof_document(event)["digest"]) in page and f"/results/{event.slug}/check.svg" in page
    record_slip(event, world.slip(boat="3", gross="7.00"), "mara")
    publish_result(event, "mara", "boat 3 came late")
    KEEPER.clear()
    assert "check.svg" not in opened(f"/results/{event.slug}/official/1/")
    assert "check.svg" in opened(f"/results/{event.slug}/official/2/")


def test_the_code_opens_the_page_at_the_host_that_was_asked(event: Event, settings: Any) -> None:
    settings.ALLOWED_HOSTS = ["lake.test", "other.test"]
    codes = {Client(headers={"host": host}).get(f"/results/{event.slug}/check.svg").content for host in settings.ALLOWED_HOSTS}  # fmt: skip
    assert len(codes) == 2


def test_the_script_is_a_program_under_node(event: Event, tmp_path: Path) -> None:
    node = shutil.which("node")
    if node is None:
        pytest.skip("there is no Node here")
    (tmp_path / "check.js").write_text(check_script(), encoding="utf-8")
    proof = proof_document(event)

    def ran(proof: Any, *words: str) -> tuple[int, str]:
        (tmp_path / "proof.json").write_text(json.dumps(proof), encoding="utf-8")
        done = subprocess.run([node, "check.js", "proof.json", *words], cwd=tmp_path, capture_output=True, text=True, check=False)  # fmt: skip
        return done.returncode, done.stdout + done.stderr

    code, said = ran(proof)
    assert code == 0 and "4 boats, and everything comes out the same." in said
    code, said = ran(proof, "--json")
    assert code == 0 and json.loads(said)["result"]["standings"][0]["total"] == "9.1"
    proof["result"]["standings"][0]["total"] = "9.20"
    code, said = ran(proof)
    assert code == 1 and "boat 2: total 9.20 in the file, 9.1 worked out again" in said
    code, said = ran([])
    assert code == 1 and "This file is no proof" in said
    # Whatever a key is called, it is bound; a file that cannot be read to its end is said to be none
    proof = proof_document(event)
    for added in ({"result.version": 1}, {"": {"digest": 1}}, {"result": proof["result"] | {"digest": 1}}):
        assert not json.loads(ran(proof | added, "--json")[1])["digest"]["holds"]
    assert json.loads(ran(proof | {"more": 'a"\\' * 200_000}, "--json")[1])["digest"]["told"] == proof["digest"]
    (tmp_path / "deep.json").write_text(json.dumps(proof)[:-1] + ', "x": ' + "[" * 100_000 + "]" * 100_000 + "}")
    for words, wanted in ((["deep.json"], "This file is no proof"), ([], "node check.js FILE")):
        done = subprocess.run([node, "check.js", *words], cwd=tmp_path, capture_output=True, text=True, check=False)
        assert done.returncode == 1 and done.stderr.startswith(wanted), done.stderr


@pytest.mark.parametrize("line", ['import "./other.js";', "export default 3;", 'const one = import("./x.js");'])
def test_a_module_that_cannot_be_classic_is_named(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, line: str, settings: Any) -> None:  # fmt: skip
    settings.DEBUG = True
    (tmp_path / "odd.js").write_text(f"{line}\n", encoding="utf-8")
    monkeypatch.setattr(finders, "find", lambda name: str(tmp_path / "odd.js"))
    monkeypatch.setattr("weighin.ui.classic.files_of", lambda *names: ("weighin/js/odd.js",))
    with pytest.raises(NotClassic, match=r"odd\.js"):
        classic_script("odd", "odd")
