"""How many fish died, and how sure we are: pure statistics over plain numbers.

Nothing here knows a database, a request or a clock. Importing the package costs next to nothing; `numpy` and
`scipy.special` are imported inside the few functions that need them (curves, exact and Bayesian intervals), so a
page that shows a rate with its interval loads neither.

    quantiles     the normal's and Student's quantiles, without scipy
    intervals     one rate: Wilson, exact (Clopper-Pearson), Jeffreys
    clusters      one rate when the fish of a livewell live or die together; livewells within events
    estimates     a rate with its error and limits, and how the limits of several rates combine
    delayed       deaths after the release: Abbott's correction, initial and delayed together
"""
