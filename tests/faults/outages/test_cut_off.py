"""A migration that is cut off, and two servers on one folder."""

import os
import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from faults.outages.under_load import new_load
from served import ROOT, Site, free_port
from upgrade.earlier_database import AT_0001, ON_POSTGRESQL, Place, earlier_place, said_of

KILLS = 4
# Dies when the first app is through and the locks of its rows are not made yet, or later ones'
DIE = """
import os, signal, django
os.environ["DJANGO_SETTINGS_MODULE"] = "weighin.settings"
django.setup()
from django.core.management import call_command
from django.db.models.signals import post_migrate, pre_migrate
seen = []
def die(sender, **more):
    seen.append(sender)
    if len(seen) > {after}:
        os.kill(os.getpid(), signal.SIGKILL)
{signal}.connect(die)
call_command("migrate", verbosity=0)
"""


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return earlier_place(tmp_path, AT_0001)


def died(place: Place, signal_name: str, after: int) -> None:
    code = DIE.format(signal=signal_name, after=after)
    told = subprocess.run([sys.executable, "-c", code], cwd=ROOT, env=place.site.env, capture_output=True, check=False)
    assert told.returncode == -signal.SIGKILL, told.stderr


@pytest.mark.database
@pytest.mark.parametrize(("signal_name", "after"), [("pre_migrate", 1), ("post_migrate", 0), ("post_migrate", 6)])
def test_a_migration_that_is_cut_off_goes_on(place: Place, signal_name: str, after: int) -> None:
    died(place, signal_name, after)
    told = place.site.manage("serve", "--port", str(free_port())) if signal_name == "pre_migrate" else None
    assert told is None or (told.returncode == 1 and "run 'manage.py migrate' first" in told.stderr), told
    assert place.site.manage("migrate", "--verbosity", "0").returncode == 0
    ledgers = place.site.manage("check_ledger")
    assert ledgers.returncode == 0
    for line in said_of(AT_0001)["check_ledger"].splitlines():
        assert line in ledgers.stdout
    assert "can only be added to" in place.site.manage("doctor").stdout


@pytest.mark.skipif(ON_POSTGRESQL, reason="kills at any moment are tried on one database")
def test_a_migration_that_is_killed_at_any_moment_goes_on(place: Place) -> None:
    for turn in range(KILLS):
        words = [sys.executable, str(ROOT / "manage.py"), "migrate", "--verbosity", "0"]
        with subprocess.Popen(words, env=place.site.env, cwd=ROOT, stderr=subprocess.DEVNULL) as process:
            try:
                process.wait(0.5 + 0.6 * turn)
            except subprocess.TimeoutExpired:
                os.kill(process.pid, signal.SIGKILL)
        assert place.ask("PRAGMA integrity_check") == [("ok",)]
    assert place.site.manage("migrate", "--verbosity", "0").returncode == 0
    assert place.site.manage("check_ledger").returncode == 0
    slips = place.ask("SELECT count(*) FROM slips_weighslip")
    assert slips == [(said_of(AT_0001)["rows"]["slips_weighslip"],)]


@pytest.mark.skipif(ON_POSTGRESQL, reason="it is SQLite whose writers wait for a file")
def test_two_servers_on_one_folder_lose_nothing(tmp_path: Path) -> None:
    load = new_load(tmp_path)
    other = Site(tmp_path)
    other.start()
    through_the_other = replace(load, site=other, tokens=load.tokens[2:], sent=[], tablets=[])
    load.tokens = load.tokens[:2]
    with load.going(8):
        for place, tablet in enumerate(load.tablets):
            assert tablet.slips[0]["boat"] == 1 + 8 * place
        through_the_other.sent = [*load.sent]
        with through_the_other.going(8):
            pass
    assert other.stop() == 0 and "Traceback" not in load.site.said()
    load.tablets += through_the_other.tablets
    load.sent = [slip for tablet in load.tablets for slip in tablet.slips]
    load.tally("two servers on one data folder", 1)
    load.site.kill()
