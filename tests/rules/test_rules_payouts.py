"""Money: purse, places paid, prizes, ties at the money line, and the big fish pot, to the cent."""

from decimal import Decimal as D

import pytest

from weighin.rules.payouts import places, places_paid, split

from .plain import bare_team, ranked, rules, weighed_team

SHARED = {"place_shares": "40, 30, 20, 10", "rounding": "5", "payback_percent": "80"}


def entries(*totals, paid=(), pot=(), big=None):
    """Teams 1, 2, ... with these totals; ``paid`` and ``pot`` name boats; ``big`` maps boats to big fish."""
    return [
        weighed_team(
            boat,
            total,
            paid=boat in paid,
            big_fish_pot=boat in pot,
            big_fish=D(big[boat]) if boat in (big or {}) else None,
        )
        for boat, total in enumerate(totals, start=1)
    ]


def shared_out(results, fee="0", added="0", **written):
    ties = {"ties": written.pop("ties", "share")}
    return split(rules(**ties, **written), ranked(results, **ties), D(fee), D(added))


def prizes(found):
    return {boat: str(amount) for boat, amount in found.prizes.items()}


def pot(found):
    return {boat: str(amount) for boat, amount in found.pot_prizes.items()}


class TestPurse:
    def test_the_worked_example(self):
        """23 paid at 60.00, 80 %, 250.00 added: 1354.00, four places of 1 per 5."""
        teams = entries(*[str(30 - n) for n in range(23)], paid=range(1, 24))
        found = shared_out(teams, "60.00", "250.00", **SHARED)
        assert (found.paid_entries, found.purse, found.places_paid, found.unclaimed) == (23, D("1354.00"), 4, 0)
        assert prizes(found) == {1: "544.00", 2: "405.00", 3: "270.00", 4: "135.00"}

    def test_second_and_third_tie_in_the_worked_example(self):
        teams = entries("30", "29", "29", *[str(28 - n) for n in range(20)], paid=range(1, 24))
        assert prizes(shared_out(teams, "60.00", "250.00", **SHARED)) == {
            1: "544.00",
            2: "337.50",
            3: "337.50",
            4: "135.00",
        }

    def test_paid_entries_count_whatever_became_of_them(self):
        gone = [bare_team(10, status, paid=True) for status in ("withdrawn", "absent", "disqualified", "not_weighed")]
        found = shared_out([*entries("5", "4", paid=(1,)), *gone], "10")
        assert (found.paid_entries, found.purse) == (5, D("50.00"))
        assert prizes(found) == {1: "50.00"}

    @pytest.mark.parametrize(
        ("paid", "fee", "percent", "added", "purse"),
        [
            (3, "10.01", "33.3", "0", "9.99"),
            (1, "0.01", "50", "0", "0.00"),
            (2, "0.01", "50", "0", "0.01"),
            (3, "20", "0", "100.50", "100.50"),
            (3, "20", "100", "0", "60.00"),
            (0, "20", "100", "5", "5.00"),
        ],
    )
    def test_the_purse_is_down_to_the_cent_and_added_money_whole(self, paid, fee, percent, added, purse):
        found = shared_out(entries("5", "4", "3", paid=range(1, paid + 1)), fee, added, payback_percent=percent)
        assert str(found.purse) == purse

    def test_nobody_ranked_has_paid(self):
        found = shared_out([*entries("5"), bare_team(9, "no_fish", paid=True)], "20", "10")
        assert (found.places_paid, found.prizes, found.unclaimed) == (0, {}, D("30.00"))
        assert found.paid_entries == 1

    def test_no_teams_at_all(self):
        found = shared_out([], "20", "10")
        assert (found.paid_entries, found.purse, found.unclaimed, found.places_paid) == (0, D("10.00"), D("10.00"), 0)


class TestPlacesPaid:
    @pytest.mark.parametrize(
        ("rule", "paid", "winners", "count"),
        [
            ("1 per 5", 23, 23, 4),
            ("1 per 5", 25, 25, 5),
            ("1 per 5", 4, 4, 1),
            ("1 per 5", 25, 3, 3),
            ("1 per 1", 6, 6, 6),
            ("3", 23, 23, 3),
            ("3", 23, 2, 2),
            ("3", 23, 0, 0),
            ("1 per 5", 23, 0, 0),
        ],
    )
    def test_the_number_given_or_one_for_so_many_paid_entries(self, rule, paid, winners, count):
        assert places_paid(rules(places_paid=rule), paid, winners) == count

    def test_no_more_than_the_shares_given(self):
        assert places_paid(rules(places_paid="6", place_shares="50, 30"), 23, 23) == 2
        assert places_paid(rules(places_paid="1", place_shares="50, 30"), 23, 23) == 1


class TestShares:
    def test_without_a_table_n_to_one(self):
        assert places(rules(places_paid="3"), D("600.00"), 3) == [300, 200, 100]

    def test_only_the_first_n_of_the_table(self):
        assert places(rules(**SHARED), D("1000.00"), 2) == [575, 425]

    def test_one_place_takes_everything(self):
        assert places(rules(**SHARED), D("1354.00"), 1) == [1354]

    def test_what_rounding_leaves_goes_to_first(self):
        assert places(rules(rounding="10"), D("100.00"), 3) == [60, 30, 10]
        assert places(rules(rounding="0.01"), D("100.00"), 3) == [D("50.01"), D("33.33"), D("16.66")]
        assert places(rules(rounding="500"), D("100.00"), 2) == [100, 0]

    def test_a_zero_share_is_paid_nothing(self):
        assert places(rules(place_shares="7.5, 2.5, 0"), D("100.00"), 3) == [75, 25, 0]
        assert places(rules(place_shares="0, 1"), D("100.00"), 2) == [0, 100]

    def test_shares_that_are_zero_as_far_as_places_are_paid_leave_everything_to_first(self):
        assert places(rules(place_shares="0, 1"), D("100.00"), 1) == [100]

    def test_shares_of_thirds_lose_no_cent(self):
        assert sum(places(rules(place_shares="1, 1, 1", rounding="0.01"), D("100.00"), 3)) == 100

    def test_nothing_to_pay(self):
        assert places(rules(), D("0.00"), 2) == [0, 0]


class TestTiesForMoney:
    def test_tied_teams_split_the_places_they_cover(self):
        teams = entries("9", "9", "8", paid=(1, 2, 3))
        assert prizes(shared_out(teams, added="600", places_paid="3")) == {1: "250.00", 2: "250.00", 3: "100.00"}

    def test_a_tie_over_the_money_line_splits_what_lies_above_it(self):
        teams = entries("9", "8", "8", "8", paid=(1, 2, 3, 4))
        found = shared_out(teams, added="300", places_paid="2")
        assert prizes(found) == {1: "200.00", 2: "33.34", 3: "33.33", 4: "33.33"}
        assert found.places_paid == 2

    def test_left_over_cents_go_one_each_to_the_lower_boats(self):
        teams = entries("9", "9", "9", paid=(1, 2, 3))
        assert prizes(shared_out(teams, added="0.05", places_paid="1", rounding="0.01")) == {
            1: "0.02",
            2: "0.02",
            3: "0.01",
        }

    def test_who_gets_no_cent_is_not_listed(self):
        teams = entries("9", "9", "9", paid=(1, 2, 3))
        assert prizes(shared_out(teams, added="0.02", places_paid="1", rounding="0.01")) == {1: "0.01", 2: "0.01"}

    def test_a_tie_that_the_tie_breakers_settle_is_not_split(self):
        teams = entries("9", "9", paid=(1, 2), big={2: "1.5"})
        assert prizes(shared_out(teams, added="300", places_paid="2", ties="big_fish, share")) == {
            2: "200.00",
            1: "100.00",
        }


class TestUnpaid:
    def test_an_unpaid_team_keeps_its_place_and_is_passed_over(self):
        teams = entries("9", "8", "7", "6", paid=(2, 4))
        found = shared_out(teams, added="300", places_paid="2")
        assert prizes(found) == {2: "200.00", 4: "100.00"}

    def test_an_unpaid_team_in_a_tie_takes_no_share_and_covers_no_place(self):
        teams = entries("9", "8", "8", "7", paid=(1, 3, 4))
        assert prizes(shared_out(teams, added="600", places_paid="3")) == {1: "300.00", 3: "200.00", 4: "100.00"}

    def test_no_more_places_than_paid_ranked_teams(self):
        teams = entries("9", "8", "7", paid=(3,))
        found = shared_out(teams, added="600", places_paid="3")
        assert (found.places_paid, prizes(found)) == (1, {3: "600.00"})


class TestBigFishPot:
    FEE = {"big_fish_pot_fee": "10"}

    def test_the_largest_among_those_in_it_wins_it(self):
        teams = entries("9", "8", "7", paid=(1, 2, 3), pot=(2, 3), big={1: "2.0", 2: "1.8", 3: "1.9"})
        found = shared_out(teams, **self.FEE)
        assert (found.big_fish_pot, found.big_fish_pot_unclaimed, pot(found)) == (D("20.00"), 0, {3: "20.00"})

    def test_one_must_have_paid_to_be_in_it(self):
        teams = entries("9", "8", paid=(2,), pot=(1, 2), big={1: "2.0", 2: "1.8"})
        found = shared_out(teams, **self.FEE)
        assert (found.big_fish_pot, pot(found)) == (D("10.00"), {2: "10.00"})

    def test_one_must_be_ranked_to_win_it(self):
        out = bare_team(5, "disqualified", paid=True, big_fish_pot=True)
        found = shared_out([*entries("9", paid=(1,), pot=(1,), big={1: "1.0"}), out], **self.FEE)
        assert (found.big_fish_pot, pot(found)) == (D("20.00"), {1: "20.00"})

    def test_shares_with_left_over_cents_to_the_largest(self):
        teams = entries(
            "9", "8", "7", "6", paid=range(1, 5), pot=range(1, 5), big={1: "1.0", 2: "2.0", 3: "1.5", 4: "0.9"}
        )
        found = shared_out(teams, big_fish_pot_fee="7.77", big_fish_shares="1, 1, 1", rounding="5")
        assert found.big_fish_pot == D("31.08")
        assert pot(found) == {2: "10.36", 3: "10.36", 1: "10.36"}
        found = shared_out(teams, big_fish_pot_fee="2.50", big_fish_shares="1, 1, 1")
        assert pot(found) == {2: "3.34", 3: "3.33", 1: "3.33"}

    def test_fewer_fish_than_shares_use_the_first_of_them(self):
        teams = entries("9", "8", "7", paid=(1, 2, 3), pot=(1, 2, 3), big={1: "1.0", 2: "2.0"})
        found = shared_out(teams, **self.FEE, big_fish_shares="50, 30, 20")
        assert pot(found) == {2: "18.75", 1: "11.25"}

    def test_equal_fish_split_the_shares_they_cover(self):
        teams = entries("9", "8", "7", paid=(1, 2, 3), pot=(1, 2, 3), big={1: "1.5", 2: "1.5", 3: "1.0"})
        assert pot(shared_out(teams, **self.FEE)) == {1: "15.00", 2: "15.00"}
        assert pot(shared_out(teams, **self.FEE, big_fish_shares="60, 40")) == {1: "15.00", 2: "15.00"}
        assert pot(shared_out(teams, **self.FEE, big_fish_shares="50, 30, 20")) == {1: "12.00", 2: "12.00", 3: "6.00"}

    def test_the_first_shares_may_be_zero_for_all_the_fish_there_are(self):
        teams = entries("9", paid=(1,), pot=(1,), big={1: "1.5"})
        assert pot(shared_out(teams, **self.FEE, big_fish_shares="0, 1")) == {1: "10.00"}

    def test_without_a_counting_fish_it_is_unclaimed(self):
        found = shared_out(entries("9", "8", paid=(1, 2), pot=(1, 2)), **self.FEE)
        assert (found.big_fish_pot, found.big_fish_pot_unclaimed, pot(found)) == (D("20.00"), D("20.00"), {})

    def test_a_big_fish_worth_nothing_after_lateness_still_counts(self):
        found = shared_out(entries("9", paid=(1,), pot=(1,), big={1: "0"}), **self.FEE)
        assert pot(found) == {1: "10.00"}

    def test_it_is_apart_from_the_purse(self):
        teams = entries("9", "8", paid=(1, 2), pot=(1,), big={1: "1.5"})
        found = shared_out(teams, "20", **self.FEE)
        assert (found.purse, found.big_fish_pot) == (D("40.00"), D("10.00"))
        assert prizes(found) == {1: "40.00"}

    def test_no_fee_no_pot(self):
        found = shared_out(entries("9", paid=(1,), pot=(1,), big={1: "1.5"}))
        assert (found.big_fish_pot, found.big_fish_pot_unclaimed, found.pot_prizes) == (0, 0, {})


def test_a_percentage_of_many_digits_is_not_rounded_up():
    """A third of 300.00 with 38 digits is a little less than 100.00, and goes down to the cent."""
    third = "33." + "3" * 36
    assert shared_out(entries("3", "2", "1", paid=(1, 2, 3)), "100.00", payback_percent=third).purse == D("99.99")
