"""The machine dies, its clock goes back, its database's server is started anew, in the midst of four tablets' slips."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from random import Random

import postgres
import pytest
from faults.outages.under_load import Load, new_load, told_to_come_back
from patience import until
from served import Site
from stations.tables import rows_of

KILLS, CUTS, RESTARTS = 3, 3, 2
FILES = ("weighin.sqlite3", "weighin.sqlite3-wal")
# Moves the site's clock by what a file says; started with the server, before anything asks the time
CLOCK = """
import datetime, pathlib
import django.utils.timezone as timezone
honest, moved = timezone.now, pathlib.Path({file!r})
timezone.now = lambda: honest() + datetime.timedelta(seconds=int(moved.read_text()))
"""


@pytest.fixture
def load(tmp_path: Path) -> Iterator[Load]:
    load = new_load(tmp_path)
    yield load
    if load.site.server is not None:
        load.site.kill()


def test_the_server_is_killed_at_any_moment(load: Load) -> None:
    chance = Random(11)
    with load.going(5 * KILLS):
        for _ in range(KILLS):
            load.await_more(chance.randint(3, 9))
            load.site.kill()
            load.site.start()
    load.tally("server killed (kill -9)", KILLS)


def test_the_power_goes_while_slips_are_written(load: Load, tmp_path_factory: pytest.TempPathFactory) -> None:
    """The files are copied one after the other while slips come in, the log last, as a disk may hold them after a cut:
    a site that starts on the copy has every slip that was acknowledged before the copy began."""
    held: list[tuple[Path, dict[str, int]]] = []
    with load.going(5 * CUTS):
        for _ in range(CUTS):
            load.await_more(5)
            answered = load.acknowledged
            there = tmp_path_factory.mktemp("cut")
            # Nothing is brought from the log into the file between the two copies: there are too few pages for that
            for name in FILES:
                shutil.copyfile(load.site.data / name, there / name)
            held.append((there, answered))
    lost = 0
    for there, answered in held:
        copy = Site(there)
        assert copy.manage("migrate", "--check").returncode == 0
        numbers = {slip: number for slip, number, _ in rows_of(copy)}
        lost += sum(numbers.get(slip) != number for slip, number in answered.items())
        told = copy.manage("check_ledger", load.slug)
        assert told.returncode == 0 and "nothing altered" in told.stdout
    assert lost == 0
    load.tally("power cut (files copied in mid-write)", CUTS)


def test_the_clock_goes_back_an_hour(tmp_path: Path) -> None:
    moved, where = tmp_path / "moved", tmp_path / "clock"
    where.mkdir()
    moved.write_text("0")
    (where / "sitecustomize.py").write_text(CLOCK.format(file=str(moved)))
    (tmp_path / "data").mkdir()
    load = new_load(tmp_path / "data", PYTHONPATH=str(where))
    with load.going(30):
        load.await_more(6)
        (tmp_path / "new").write_text("-3600")
        (tmp_path / "new").replace(moved)  # at once: the server reads it all the while
        load.await_more(6)
    assert load.refused == [], "a tablet is answered whatever the clock says"
    load.tally("clock back an hour", 1)
    assert "before the last slip came in" in load.site.manage("doctor").stdout
    load.site.kill()


@pytest.mark.skipif("__import__('os').name != 'posix'")
def test_postgresql_is_started_anew(tmp_path: Path) -> None:
    try:
        with postgres.server(options="") as database:
            load = new_load(tmp_path, DATABASE_URL=database.url)
            try:
                with load.going(10):
                    for how in ("fast", "immediate")[:RESTARTS]:
                        load.await_more(6)
                        before = len(load.refused)
                        database.stop(how)
                        until(lambda before=before: len(load.refused) >= before + 4)  # type: ignore[misc]
                        database.start()
                told_to_come_back(load.refused)
                assert "Traceback" not in load.site.said(), load.site.said()[-3000:]
                load.tally("PostgreSQL restarted", RESTARTS)
            finally:
                load.site.kill()
    except postgres.NoPostgres as why:
        pytest.skip(str(why))
