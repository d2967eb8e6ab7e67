"""What can be wrong with money that is written down."""

from weighin.rules.faults import Sentence, gettext_noop

KIND_MISSING = Sentence("payment_kind_missing", gettext_noop("choose what it is for: the entry fee or a pot"))
AMOUNT_MISSING = Sentence("amount_missing", gettext_noop("the amount is missing: write it, with a minus for a refund"))
MEANS_MISSING = Sentence("means_missing", gettext_noop("choose how it was paid: cash, check, card, online or other"))
POT_MISSING = Sentence("pot_missing", gettext_noop("choose the side pot: %(pots)s"))
NO_POT_YET = Sentence("no_pot_yet", gettext_noop("none is set up yet"))
NO_SUCH_POT = Sentence("no_such_pot", gettext_noop("there is no side pot %(pot)s: %(pots)s"))
POT_OF_ANOTHER_KIND = Sentence(
    "pot_of_another_kind", gettext_noop("only a side pot has a name: leave it out, or choose the side pot")
)
MORE_BACK_THAN_PAID = Sentence(
    "more_back_than_paid",
    gettext_noop("boat %(boat)s has paid %(paid)s for this: no more than that can be refunded"),
)
HAS_MONEY = Sentence(
    "team_has_money",
    gettext_noop("boat %(boat)s has money recorded for this: give it back, or correct it, on the money page"),
)
POT_WITHOUT_NAME = Sentence("pot_without_name", gettext_noop("this is blank: write the side pot’s name"))
POT_WITHOUT_FEE = Sentence("pot_without_fee", gettext_noop("this is blank: write what a team pays, 0 for nothing"))
POT_WITHOUT_WINNER = Sentence("pot_without_winner", gettext_noop("choose what wins it"))
POT_TAKEN = Sentence("pot_taken", gettext_noop("there is a side pot %(pot)s already: give this one another name"))
POT_OF_THE_SHEET = Sentence(
    "pot_of_the_sheet",
    gettext_noop("%(pot)s is what files call the big fish pot of the rule sheet: give this one another name"),
)
POT_HAS_PAYMENTS = Sentence(
    "pot_has_payments",
    gettext_noop("teams have paid this side pot: its name stays, and it cannot be removed. Correct the payments first"),
)
POT_FEE_WITHOUT_REASON = Sentence(
    "pot_fee_reason_missing",
    gettext_noop("teams have paid already: write why the fee changes; the money page shows who owes"),
)
SHARES_ZERO = Sentence("pot_shares_zero", gettext_noop("the shares are all zero: give at least the first a share"))
NOTHING_DUE = Sentence(
    "nothing_due", gettext_noop("nothing is due to boat %(boat)s for this by the standings as they are")
)
PAID_OUT_ALREADY = Sentence(
    "paid_out_already",
    gettext_noop("boat %(boat)s has had its %(amount)s: pay-out %(numbers)s, nothing is left to pay"),
)
RECEIVER_MISSING = Sentence("receiver_missing", gettext_noop("write who received the money"))
NOTHING_TICKED = Sentence("nothing_ticked", gettext_noop("check what the team pays: the entry fee or a pot"))
FEE_PAID_ALREADY = Sentence(
    "fee_paid_already", gettext_noop("%(team)s has paid the entry fee already: leave it unchecked, or check the boat")
)
BIG_FISH_PAID_ALREADY = Sentence(
    "big_fish_paid_already", gettext_noop("%(team)s has paid the big fish pot already: leave it unchecked")
)
POT_PAID_ALREADY = Sentence(
    "side_pot_paid_already", gettext_noop("%(team)s has paid %(pot)s already: leave it unchecked")
)
LATE_WITHOUT_REASON = Sentence(
    "late_without_reason",
    gettext_noop("%(closed)s. To add this team late, write why: it launches after the drawn boats"),
)
WAITS_FOR_PROTEST = Sentence(
    "prize_waits_for_protest",
    gettext_noop(
        "the prize of boat %(boat)s waits for protest %(protests)s, which can change it: have it ruled on first, or write why "
        "it is paid all the same"
    ),
)
WITHDRAWN_ALREADY = Sentence(
    "withdrawn_already", gettext_noop("%(team)s is withdrawn already: give more back on the money page")
)
WITHDRAWN_WITHOUT_REASON = Sentence("withdrawn_without_reason", gettext_noop("write why the team withdraws"))
BACK_BY_NO_MEANS = Sentence("back_by_no_means", gettext_noop("choose how it is refunded"))
BOXES_CHANGED = Sentence(
    "boxes_changed",
    gettext_noop("the sums have changed since this page was opened: look at them, then check the boxes again"),
)
PAID_OTHERWISE = Sentence(
    "paid_otherwise", gettext_noop("what %(team)s paid has changed meanwhile: check it again before you refund it")
)
