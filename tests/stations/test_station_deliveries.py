"""Slips that come twice, out of order, or over a connection that is cut: exactly one row an id, and nothing lost."""

import http.client
import threading
from collections.abc import Iterator
from functools import partial
from random import Random
from typing import Any

import pytest
from served import Site
from stations.speaking import message
from stations.tables import Table, at_once, new_event, rows_of

STATIONS, SLIPS = 6, 50
KILLS, POSTERS = 12, 4


@pytest.fixture
def site(tmp_path: Any) -> Iterator[Site]:
    site = Site(tmp_path)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    site.start()
    yield site
    if site.server is not None:
        site.stop()


def paired(site: Site, slug: str, count: int) -> list[Table]:
    return [
        Table(site, slug, site.manage("pair_station", slug, f"Table {n}").stdout.split()[-1], seed=n)
        for n in range(count)
    ]


def ledger_holds(site: Site, slug: str, slips: int) -> None:
    done = site.manage("check_ledger", slug)
    assert done.returncode == 0 and f"{slips} slips, nothing altered" in done.stdout, done.stdout


def one_row_each(site: Site, slug: str, sent: list[dict[str, Any]], tables: list[Table]) -> None:
    """Every id that was sent has one row, with the boat it was sent for and the number it was always answered."""
    rows = {slip_id: (number, boat) for slip_id, number, boat in rows_of(site)}
    assert len(rows) == len(rows_of(site)) == len(sent)
    assert {slip["id"]: slip["boat"] for slip in sent} == {slip_id: boat for slip_id, (_, boat) in rows.items()}
    for table in tables:
        for slip_id, answers in table.answers.items():
            assert {number for _, number in answers} == {rows[slip_id][0]}
    ledger_holds(site, slug, len(sent))


def test_doubled_reordered_and_cut_deliveries_end_in_one_row_an_id(site: Site) -> None:
    slug = new_event(site)
    tables = paired(site, slug, STATIONS)
    sent = [message(boat=1 + n) for n in range(STATIONS * SLIPS)]
    # Every slip reaches two stations, as when a tablet is given up and its copies are sent from another
    shares = [[slip for n, slip in enumerate(sent) if place in (n % STATIONS, (n + 1) % STATIONS)] for place in range(STATIONS)]  # fmt: skip

    def deliver(table: Table, slips: list[dict[str, Any]]) -> None:
        waiting = slips * 2
        table.random.shuffle(waiting)
        while waiting:
            some = [waiting.pop() for _ in range(min(len(waiting), table.random.choice((1, 1, 1, 2, 5, 20))))]
            fate = table.random.random()
            if fate < 0.15:
                table.send_and_hang_up(some)
            elif fate < 0.25:
                table.send_and_hang_up(some, share=table.random.random() * 0.99)
            else:
                table.send(some)
                continue
            # No answer came, so the station has them still, and sends them again some time
            waiting.extend(some)
            table.random.shuffle(waiting)

    at_once(partial(deliver, table, slips) for table, slips in zip(tables, shares, strict=True))
    kept = [state for table in tables for answers in table.answers.values() for state, _ in answers]
    assert set(kept) == {"kept", "already"}
    assert set().union(*(table.answers for table in tables)) == {slip["id"] for slip in sent}
    one_row_each(site, slug, sent, tables)


def test_the_same_slip_from_all_stations_at_once_is_kept_once(site: Site) -> None:
    slug = new_event(site)
    tables = paired(site, slug, STATIONS)
    sent = [message(boat=1 + n) for n in range(20)]
    for slip in sent:
        at_once(partial(table.send, [slip]) for table in tables)
    states = sorted(state for table in tables for answers in table.answers.values() for state, _ in answers)
    assert states == ["already"] * (len(sent) * (STATIONS - 1)) + ["kept"] * len(sent)
    one_row_each(site, slug, sent, tables)


class Killer:
    """Kills the server once so many more ids were answered than when it was made."""

    def __init__(self, site: Site, tables: list[Table], after: int) -> None:
        self.site, self.tables = site, tables
        self.at = self.answered() + after
        self.once = threading.Lock()

    def answered(self) -> int:
        return sum(len(table.answers) for table in self.tables)

    def strike(self) -> None:
        if self.answered() >= self.at and self.once.acquire(blocking=False):
            self.site.kill()

    def post_until_dead(self, table: Table, slips: list[dict[str, Any]]) -> None:
        try:
            for slip in slips:
                table.send([slip])
                self.strike()
        except (OSError, http.client.HTTPException):
            return


@pytest.mark.bench
def test_nothing_acknowledged_is_lost_when_the_server_is_killed(site: Site) -> None:
    """The server dies twelve times while slips come in, and is started again; stations send what was not answered."""
    slug = new_event(site)
    tables = paired(site, slug, POSTERS)
    sent: list[dict[str, Any]] = []
    chance = Random(7)
    for turn in range(KILLS):
        batch = [message(boat=1 + turn * 32 + n) for n in range(32)]
        sent += batch
        shares = [batch[place::POSTERS] for place in range(POSTERS)]
        killer = Killer(site, tables, after=chance.randint(1, 20))
        at_once(partial(killer.post_until_dead, *pair) for pair in zip(tables, shares, strict=True))
        assert killer.once.locked()
        acknowledged = {slip_id for table in tables for slip_id in table.answers}
        assert acknowledged <= {slip_id for slip_id, _, _ in rows_of(site)}
        site.start()
        for table, share in zip(tables, shares, strict=True):
            table.send(share)
    one_row_each(site, slug, sent, tables)
