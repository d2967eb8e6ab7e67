"""What holds for every rule sheet and every event, tried on drawn ones."""

from dataclasses import replace
from decimal import Decimal as D

from hypothesis import assume, example, given, reject, settings
from hypothesis import strategies as st

from weighin.rules import rulebook
from weighin.rules.faults import Faults
from weighin.rules.points import Appearance, season_points
from weighin.rules.results import STATUSES
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import DEDUCTION_REASONS, faults, score
from weighin.rules.tournament import DaySlip, Outcome, run
from weighin.rules.words.scores import explain
from weighin.rules.words.sheet import sheet_in_words

from .drawn import TEXTS, Catch, catches, events, more_of_a_slip, rulebooks, written_rules
from .plain import rules, slip

FEE, ADDED = D("20.05"), D("33.33")
thorough = settings(max_examples=150)


def outcome(book: Rulebook, event, slips=None) -> Outcome:
    return run(book, event.teams, event.slips(book) if slips is None else slips, event.days, FEE, ADDED)


def result_of(found: Outcome):
    """What an event comes to, without the lines that made it."""
    listed = [
        (row.result.team.boat, row.place, row.tied, row.result.status, row.result.total, row.result.big_fish)
        for row in found.ranked
    ]
    return listed, found.purse, found.points


@thorough
@given(rulebooks(), catches(), more_of_a_slip())
def test_a_slip_written_at_the_table_is_sound_and_its_total_is_its_parts(book, catch, more):
    seen = catch.slip(book, **more)
    assert faults(book, seen) == []
    found = score(book, seen)
    assert [line.reason for line in found.deductions] == sorted(
        (line.reason for line in found.deductions), key=DEDUCTION_REASONS.index
    )
    assert all(line.count > 0 and line.amount >= 0 for line in found.deductions)
    total = found.net - sum(line.amount for line in found.deductions) + found.bonus
    if found.lost:
        assert (found.total, found.weighed, found.bonus, found.deductions, found.big_fish) == (0, 0, 0, (), None)
    elif book.negative_totals == "floor":
        assert found.total == max(D(0), total)
    else:
        assert found.total == total
    assert 0 <= found.weighed <= found.on_scale <= seen.fish


@thorough
@given(rulebooks(), catches(), more_of_a_slip())
def test_what_comes_off_the_scale_is_never_more_than_lay_on_it(book, catch, more):
    found = score(book, catch.slip(book, **more))
    off = 0
    if book.over_limit == "remove_largest":
        off += sum(line.amount for line in found.deductions if line.reason == "over_limit")
    if book.short_fish == "lose_largest":
        off += sum(line.amount for line in found.deductions if line.reason == "short_fish")
    assert off <= found.net


@thorough
@given(rulebooks(), events(), st.randoms(use_true_random=False))
def test_nothing_depends_on_the_order_in_which_rows_arrive(book, event, random):
    slips = event.slips(book)
    teams = list(event.teams)
    before = run(book, teams, slips, event.days, FEE, ADDED)
    random.shuffle(slips)
    random.shuffle(teams)
    assert run(book, teams, slips, event.days, FEE, ADDED) == before


@thorough
@given(rulebooks(), events())
def test_payouts_add_up_to_the_purse_and_the_pot_to_the_cent(book, event):
    found = outcome(book, event)
    purse = found.purse
    winners = {row.result.team.boat for row in found.ranked if row.place is not None and row.result.team.paid}
    assert sum(purse.prizes.values(), purse.unclaimed) == purse.purse
    assert sum(purse.pot_prizes.values(), purse.big_fish_pot_unclaimed) == purse.big_fish_pot
    assert purse.unclaimed in (0, purse.purse)
    assert purse.big_fish_pot_unclaimed in (0, purse.big_fish_pot)
    assert winners or purse.unclaimed == purse.purse
    assert set(purse.prizes) | set(purse.pot_prizes) <= winners
    for amount in (*purse.prizes.values(), *purse.pot_prizes.values(), purse.purse, purse.big_fish_pot):
        assert amount >= 0
        assert amount.as_tuple().exponent == -2


@thorough
@given(st.data(), st.sampled_from(["purse", "pot"]))
def test_teams_level_in_place_or_fish_get_the_same_to_a_cent(data, what):
    book, event = data.draw(rulebooks(ties="share")), data.draw(events(at_least=3))
    found = outcome(book, event)
    winners = [row for row in found.ranked if row.place is not None and row.result.team.paid]
    for one in winners:
        for other in winners:
            if what == "purse":
                level = one.place == other.place
                prizes = found.purse.prizes
            else:
                fish = one.result.big_fish is not None and one.result.big_fish == other.result.big_fish
                level = fish and one.result.team.big_fish_pot and other.result.team.big_fish_pot
                prizes = found.purse.pot_prizes
            if level:
                mine, theirs = prizes.get(one.result.team.boat, D(0)), prizes.get(other.result.team.boat, D(0))
                assert abs(mine - theirs) <= D("0.01")
                if one.result.team.boat < other.result.team.boat:
                    assert mine >= theirs


def ahead(book: Rulebook, days, one, other) -> bool:
    """Whether one ranked team stands ahead of another, told by comparing the two alone."""
    if one.made_cut is not other.made_cut:
        return bool(one.made_cut)
    a, b = one.result, other.result
    if a.total != b.total:
        return a.total > b.total
    for tie in book.ties:
        if tie == "share":
            return False
        if tie == "big_fish":
            mine, theirs = a.big_fish or D(0), b.big_fish or D(0)
        elif tie == "live_fish":
            mine, theirs = (sum(day.slip.alive for day in result.days if day.score.lost is None) for result in (a, b))
        elif tie == "fish_count":
            mine, theirs = a.weighed, b.weighed
        elif tie == "fewest_deductions":
            mine, theirs = -a.penalty, -b.penalty
        elif tie in ("first_day", "last_day"):
            day = days[0] if tie == "first_day" else days[-1]
            mine, theirs = (sum(d.score.total for d in result.days if d.day == day) for result in (a, b))
        else:
            mine, theirs = (float("-inf") if result.team.lot is None else -result.team.lot for result in (a, b))
        if mine != theirs:
            return mine > theirs
    return False


@thorough
@given(rulebooks(), events(at_least=3))
def test_a_place_is_one_more_than_the_number_of_teams_ahead(book, event):
    found = outcome(book, event)
    placed = [row for row in found.ranked if row.result.status == "ranked"]
    assert [row for row in found.ranked if row.place is not None] == placed
    for row in placed:
        assert row.place == 1 + sum(ahead(book, event.days, other, row) for other in placed)
        level = [other for other in placed if other is not row and not ahead(book, event.days, row, other)]
        level = [other for other in level if not ahead(book, event.days, other, row)]
        assert row.tied == bool(level)
        assert {other.place for other in level} <= {row.place}
    order = [(STATUSES.index(r.result.status), r.place or 0, r.result.team.boat) for r in found.ranked]
    assert order == sorted(order)
    assert {row.result.team for row in found.ranked} == set(event.teams)


@thorough
@given(rulebooks(), catches(at_least=1), more_of_a_slip())
def test_a_fish_that_dies_before_the_same_reading_never_raises_a_total(book, catch, more):
    """The scale shows the same; only the tally says one more is dead. The big fish is not the one that died."""
    alive = catch.slip(book, **more)
    dead = replace(alive, alive=alive.alive - 1, dead=alive.dead + 1)
    assume(not faults(book, dead))
    before, after = score(book, alive), score(book, dead)
    assert after.total <= before.total
    assert after.bonus <= before.bonus
    assert after.weighed <= before.weighed
    assert (after.big_fish or 0) <= (before.big_fish or 0)
    assert after.lost == before.lost


@thorough
@given(rulebooks(), catches(at_least=1), more_of_a_slip())
@example(rules(dead_fish="not_weighed", short_fish="lose_largest"), Catch((D(2), D(1)), (), 1, 0), {})
@example(rules(dead_fish="not_weighed", over_limit="penalty"), Catch((D(1),) * 9, (), 0, 0), {})
def test_a_fish_that_dies_before_the_bag_is_weighed_never_raises_a_total(book, catch, more):
    """The scale shows what is left to weigh: without dead fish where the rules keep them off it."""
    before, after = score(book, catch.slip(book, **more)), score(book, catch.one_dies().slip(book, **more))
    assert after.total <= before.total


@thorough
@given(rulebooks(), catches(), more_of_a_slip(), st.sampled_from([1, D("0.5"), 7]))
def test_coming_in_later_never_raises_a_total_that_is_not_below_zero(book, catch, more, later):
    """A total below zero that is kept is worse than a lost day, which counts 0."""
    seen = catch.slip(book, **more)
    before = score(book, seen)
    after = score(book, replace(seen, minutes_late=seen.minutes_late + later))
    assert after.total <= max(before.total, D(0))
    assert (after.big_fish or 0) <= (before.big_fish or 0)


@thorough
@given(st.data())
def test_a_correction_back_and_forth_restores_the_result(data):
    book, event = data.draw(rulebooks()), data.draw(events())
    assume(event.catches)
    key = data.draw(st.sampled_from(sorted(event.catches)))
    other, more = data.draw(st.tuples(catches(), more_of_a_slip()))
    current = {(row.boat, row.day): row for row in event.slips(book)}
    before = outcome(book, event, current.values())
    first = current[key]
    current[key] = DaySlip(*key, other.slip(book, **more))
    outcome(book, event, current.values())
    current[key] = first
    assert outcome(book, event, current.values()) == before
    void = {where: row for where, row in current.items() if where != key}
    outcome(book, event, void.values())
    assert outcome(book, event, [*void.values(), first]) == before


@thorough
@given(st.data())
def test_a_doubled_slip_puts_one_team_in_question_until_one_of_them_goes(data):
    book, event = data.draw(rulebooks()), data.draw(events())
    assume(event.catches)
    key = data.draw(st.sampled_from(sorted(event.catches)))
    slips = event.slips(book)
    before = outcome(book, event, slips)
    twice = next(row for row in slips if (row.boat, row.day) == key)
    doubled = outcome(book, event, [*slips, twice])
    (team,) = (row.result for row in doubled.ranked if row.result.team.boat == key[0])
    assert team.status == ("in_question" if team.team.status == "entered" else team.team.status)
    assert team.total_of(key[1]) == 0
    others = {row.result.team.boat: row.result for row in before.ranked}
    for row in doubled.ranked:
        if row.result.team.boat != key[0]:
            assert row.result == others[row.result.team.boat]
    assert outcome(book, event, slips) == before


@settings(max_examples=250)
@given(st.data(), st.sampled_from(sorted(TEXTS)))
def test_two_rule_sheets_that_read_alike_come_to_the_same(data, key):
    """Change one key: either the words change with it, or no figure of any event does."""
    written = data.draw(written_rules())
    changed = written | {key: data.draw(st.sampled_from(TEXTS[key]))}
    try:
        one, other = rulebook.read(written, "lb"), rulebook.read(changed, "lb")
    except Faults:
        reject()  # a key that contradicts another makes no rule sheet
    event = data.draw(events())
    if sheet_in_words(one) == sheet_in_words(other):
        slips = event.slips(one)
        assert result_of(outcome(one, event, slips)) == result_of(outcome(other, event, slips))
    else:
        assert one != other


@thorough
@given(rulebooks(), catches(), more_of_a_slip())
def test_every_score_has_a_line_of_plain_words_for_each_deduction(book, catch, more):
    found = score(book, catch.slip(book, **more))
    lines = explain(found, book).splitlines()
    assert len(lines) == (1 if found.lost else len(found.deductions))
    assert all(line.strip() == line and line and "<" not in line and "None" not in line for line in lines)


@thorough
@given(rulebooks())
def test_a_rule_sheet_reads_back_from_what_it_writes(book):
    assert rulebook.read(book.written(), "lb") == book


@thorough
@given(rulebooks(), st.dictionaries(st.sampled_from("ABCDE"), st.lists(st.integers(0, 9), max_size=5), min_size=1))
def test_dropping_the_worst_events_never_lowers_a_season(book, seasons):
    teams = {
        name: [Appearance(str(n), D(p), "ranked", D(p), D(p) / 4) for n, p in enumerate(points)]
        for name, points in seasons.items()
    }
    rows = season_points(book, teams)
    for row in rows:
        counted = [a.points for a in row.counted]
        assert row.points == sum(counted)
        assert len(counted) == min(len(teams[row.team]), book.count_best or len(teams[row.team]))
        assert all(a.points <= min(counted, default=D(0)) for a in row.dropped)
        assert row.place >= 1 + sum(other.points > row.points for other in rows)


def test_a_lost_day_may_be_worth_more_than_a_kept_total_below_zero():
    """The one place where worse is better: totals below zero are kept, and a lost day counts 0 (the contract)."""
    book = rules(negative_totals="keep")
    assert score(book, slip(1, gross="1", minutes_late=15)).total == -14
    assert score(book, slip(1, gross="1", minutes_late=16)).total == 0
