"""What is made once and shown to many: one maker, the last one for the others, and an end to what is kept."""

import threading

import pytest
from patience import until

from weighin.ui import kept
from weighin.ui.kept import Keeper, State


def test_made_once_for_a_state_and_anew_for_another() -> None:
    keeper, made = Keeper(), []
    for state in (State(1, 1), State(1, 1), State(1, 2), State(2, 2), State(2, 2)):
        made.append(keeper.shown("page", lambda state=state: state, lambda: [len(made)]))  # type: ignore[misc]
    assert made == [[0], [0], [2], [3], [3]]


def test_without_a_state_nothing_is_kept() -> None:
    keeper = Keeper()
    assert keeper.shown("page", lambda: None, lambda: "once") == "once"
    assert keeper.look("page") is None


def test_what_cannot_be_made_is_nobodys_page() -> None:
    keeper = Keeper()

    def fails() -> str:
        raise ValueError

    with pytest.raises(ValueError):
        keeper.shown("page", lambda: State(1), fails)
    assert keeper.shown("page", lambda: State(1), lambda: "made") == "made"


def test_the_longest_unasked_goes_first_and_nothing_larger_stays() -> None:
    keeper = Keeper(most=10)
    for key in "abc":
        keeper.shown(key, lambda: State(1), lambda: "1234")
        keeper.look("a")
    assert keeper.look("a") and keeper.look("c") and keeper.look("b") is None
    keeper.shown("d", lambda: State(1), lambda: "1" * 11)
    assert keeper.look("d") is None
    keeper.shown("a", lambda: State(2), lambda: "12345")
    assert keeper.look("a")


class Crowd:
    """Eight readers of one page whose maker waits until it is let go."""

    def __init__(self, keeper: Keeper, state: State):
        self.go, self.made, self.shown = threading.Event(), 0, list[str]()
        self.readers = [threading.Thread(target=self._read, args=(keeper, state)) for _ in range(8)]
        for reader in self.readers:
            reader.start()

    def _read(self, keeper: Keeper, state: State) -> None:
        self.shown.append(keeper.shown("page", lambda: state, self._make))

    def _make(self) -> str:
        self.made += 1
        self.go.wait(60)
        return "new"

    def end(self) -> None:
        self.go.set()
        for reader in self.readers:
            reader.join(60)


def test_one_makes_and_the_others_get_the_last_one() -> None:
    keeper = Keeper()
    keeper.shown("page", lambda: State("open", 1), lambda: "last")
    crowd = Crowd(keeper, State("open", 2))
    until(lambda: len(crowd.shown) == 7)
    assert crowd.shown == ["last"] * 7
    crowd.end()
    assert crowd.made == 1 and crowd.shown[-1] == "new"


@pytest.mark.parametrize("guard", ["other", None])
def test_where_the_last_one_may_not_be_shown_the_others_wait(
    guard: str | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    keeper = Keeper()
    if guard is None:  # the last one is too old
        monkeypatch.setattr(kept, "LAST_SECONDS", 0.0)
    keeper.shown("page", lambda: State("open", 1), lambda: "last")
    crowd = Crowd(keeper, State(guard or "open", 2))
    until(lambda: crowd.made == 1)
    assert not crowd.shown
    crowd.end()
    assert crowd.made == 1 and crowd.shown == ["new"] * 8


@pytest.mark.parametrize(("seconds", "shown"), [(60.0, "last"), (0.0, "new")])
def test_while_another_page_is_made_one_that_is_young_is_shown_on(
    seconds: float, shown: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(kept, "OTHERS_SECONDS", seconds)
    keeper = Keeper()
    keeper.shown("other", lambda: State("open", 1), lambda: "last")
    crowd = Crowd(keeper, State("open", 1))
    until(lambda: crowd.made == 1)
    assert keeper.shown("other", lambda: State("open", 2), lambda: "new") == shown
    crowd.end()
    assert keeper.shown("other", lambda: State("open", 3), lambda: "newest") == "newest"
