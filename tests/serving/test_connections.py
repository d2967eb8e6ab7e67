"""Whom the server lets go when too many are connected."""

from weighin.serving.bodies import Bodies
from weighin.serving.connections import Connections


class Phone:
    """A connection that notes when it is ended."""

    def __init__(self, among: Connections, address: str):
        self.among, self.address = among, address
        self.connected, self.requests, self.request = True, [], None
        assert among.make_room(address)
        among.count += 1
        among.silent(address, self)

    def asks(self) -> "Phone":
        self.requests = [self]
        self.among.busy(self.address, self)
        return self

    def answered(self) -> "Phone":
        self.requests = []
        self.among.idle(self.address, self)
        return self

    def handle_close(self) -> None:
        self.connected = False
        self.among.count -= 1
        self.among.busy(self.address, self)


def test_three_hundred_phones_with_six_connections_behind_one_address() -> None:
    crowd = Connections(most=2500, most_silent=300)
    phones = [Phone(crowd, "a").asks().answered() for _ in range(1800)]
    assert all(phone.connected for phone in phones)


def test_the_oldest_idle_one_of_the_fullest_address_makes_room() -> None:
    crowd = Connections(most=5, most_silent=9)
    many = [Phone(crowd, "many").asks().answered() for _ in range(3)]
    few = [Phone(crowd, "few").asks().answered() for _ in range(2)]
    many[0].asks().answered()
    new = Phone(crowd, "new")
    assert [phone.connected for phone in (*many, *few, new)] == [True, False, True, True, True, True]


def test_the_silent_go_before_those_that_have_asked() -> None:
    crowd = Connections(most=4, most_silent=9)
    asked, _, _, silent = [Phone(crowd, "a").asks().answered(), *(Phone(crowd, "a") for _ in range(3))]
    Phone(crowd, "a")
    Phone(crowd, "b")
    assert asked.connected and silent.connected and crowd.count == 4


def test_silent_ones_of_an_address_are_few_and_the_newest() -> None:
    crowd = Connections(most=100, most_silent=3)
    phones = [Phone(crowd, "a") for _ in range(10)]
    other = Phone(crowd, "b")
    assert [phone.connected for phone in phones] == [False] * 7 + [True] * 3 and other.connected


def test_who_waits_for_an_answer_is_never_ended() -> None:
    crowd = Connections(most=3, most_silent=9)
    for _ in range(3):
        Phone(crowd, "a").asks()
    assert not crowd.make_room("b")


def test_an_answer_that_is_late_counts_nobody_who_has_gone_or_asks_again() -> None:
    crowd = Connections(most=9, most_silent=9)
    gone, asks = Phone(crowd, "a").asks(), Phone(crowd, "a").asks()
    gone.handle_close()
    crowd.idle("a", gone)
    crowd.idle("a", asks)
    assert not crowd._of


def test_who_sends_most_at_once_goes_before_the_disk_is_full() -> None:
    among, bodies = Connections(99, 99), Bodies(100)
    first, second, other = Phone(among, "a"), Phone(among, "a"), Phone(among, "b")
    for sent in (10, 40):
        bodies.grown("a", first, sent)
        bodies.grown("a", second, sent)
    bodies.grown("b", other, 20)
    assert first.connected and second.connected and other.connected, "a hundred bytes may be on their way"
    bodies.grown("b", other, 21)
    assert not first.connected and second.connected and other.connected, "the oldest of whose address has most"
    bodies.gone(first)
    bodies.grown("b", other, 60)
    assert second.connected
    bodies.gone(other)
    bodies.grown("a", second, 101)
    assert not second.connected


def test_what_has_come_whole_is_answered() -> None:
    among, bodies = Connections(99, 99), Bodies(100)
    whole, sends = Phone(among, "a"), Phone(among, "a")
    bodies.grown("a", whole, 90)
    whole.asks()
    bodies.grown("a", sends, 20)
    assert whole.connected and not sends.connected
