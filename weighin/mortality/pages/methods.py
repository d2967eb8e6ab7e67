"""How the figures of dead fish are worked out, for those who want to check them. (head, text) pairs."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

METHODS: list[tuple[Promise, Promise]] = [
    (
        gettext_lazy("Counts."),
        gettext_lazy(
            "From the weigh slips that count: everything laid on the table, short fish and lost days included. Dead are "
            "those dead at the table and those dead before release. A boat’s day with two slips counts nowhere until it is "
            "settled."
        ),
    ),
    (
        gettext_lazy("Rates."),
        gettext_lazy(
            "Initial mortality is dead / brought to the scales. Of release: dead / (brought − kept). Removed: (dead + kept) / brought."
        ),
    ),
    (
        gettext_lazy("Range of an event."),
        gettext_lazy(
            "The fish of a livewell are one cluster over all days. p is the ratio of sums; its variance is the ratio "
            "estimator’s; the design effect is that variance over the binomial one, at least 1; the limits are Wilson’s on p "
            "and fish / design effect with Student’s t of livewells − 1 (Wilson 1927; Rao & Scott 1992; Korn & Graubard "
            "1998). With one livewell, or none or all dead, the design effect is 1 and the normal quantile is used."
        ),
    ),
    (
        gettext_lazy("Range of the season."),
        gettext_lazy(
            "For events like these the same, with each event as one cluster. For these very events the variance is that of "
            "livewells within events (Cochran 1977)."
        ),
    ),
    (
        gettext_lazy("Temperature."),
        gettext_lazy(
            "A logistic curve over event totals, its errors those between events with the correction of Mancl & DeRouen "
            "(2001) for few of them and Student’s t of events less coefficients. It is straight in the log odds unless a "
            "bend where the rule sheet’s care steps begin fits better: an F test of quasi-likelihood (McCullagh & Nelder "
            "1989) at 0.05, which allows for events that scatter more than their fish one by one; with fewer than three "
            "events on a side no bend is tried. Under eight events, and outside the temperatures seen, there is no curve."
        ),
    ),
    (
        gettext_lazy("Practices."),
        gettext_lazy(
            "Cooler and warmer days apart, livewells as clusters; then boats of the same event compared with one another and "
            "put together over events (Mantel & Haenszel 1959; limits by Robins, Breslow & Greenland 1986), counts divided "
            "by the season’s design effect of livewells. Adjusted: one logistic model with every practice compared and a "
            "constant for each event, errors between livewells; a practice that was not recorded is a kind of its own there. "
            "‘Clearly’ means a 95 % range on one side of even odds, alone and adjusted; ‘may be chance’ is clear alone only; "
            "‘too few fish’ is a range that reaches both half and twice the odds."
        ),
    ),
    (
        gettext_lazy("After release."),
        gettext_lazy(
            "Abbott’s correction (1925): (held − reference) / (1 − reference), each as a share dead; limits recovered from "
            "those of both groups with pens as clusters (Zou & Donner 2008). Together with initial mortality: 1 − (1 − "
            "initial)(1 − delayed) (Wilde 1998)."
        ),
    ),
]
