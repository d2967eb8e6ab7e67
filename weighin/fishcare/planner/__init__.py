"""The livewell planner: what a boat's well or a tank will do over a day, before the day.

quantities   figures as people write them, with their units, into SI and back
question     what is asked in SI, and where fish may not be held at all
plan         its answer, by the models of ``livewell``
limits       which limits a plan passes, and the mildest change that keeps within them
species      the kinds of fish, each with its weight, words, marks and cautions
what_if      the same question with one thing changed
forms        the sentence with blanks, read into a question
words, limit_words, degrees   the answer in sentences
pictures     the answer as charts
for_event    what is known of an event's water and tanks
"""
