"""How many fish died, and how sure we are: pure statistics over plain numbers.

Nothing here knows a database, a request or a clock. Importing the package costs next to nothing; `numpy` and
`scipy.special` are imported inside the functions that need them (curves, Student's t, exact and Bayesian
intervals), so that a page without a rate loads neither.

    quantiles        the normal's and Student's quantiles
    intervals        one rate: Wilson, exact (Clopper-Pearson), Jeffreys
    clusters         one rate when the fish of a livewell live or die together
    nested           livewells within events: these events, and events like these
    estimates        a rate with its error and limits, and how the limits of several rates combine
    delayed          deaths after the release: Abbott's correction, initial and delayed together
    trend            a test over ordered classes, and the curve
    logistic         the curve itself: over temperature, hours held, fish on board, years
    bend             whether the curve bends at a place named beforehand
    shrinkage        small events drawn towards the others
    funnel           where events of each size would lie by chance
    missing          what unrecorded fish could do to a rate
    sequential       a watch over livewells that may stop at any of them

    comparing.comparison       a care practice against going without it, within strata, then pooled
    comparing.adjustment       several practices in one model, each adjusted for the others
    comparing.standardisation  one rate for a stated mix of conditions
    comparing.change           one rate less another: season to season

    sizes.sample_size          how many fish or teams a wanted width takes
    sizes.study_size           how many fish and pens a holding study takes
"""
