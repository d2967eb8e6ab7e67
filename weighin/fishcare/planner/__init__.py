"""The livewell planner: what a boat's well or a tank will do over a day, before the day.

quantities   figures as people write them, with their units, into SI and back
plan         the question and its answer, by the models of ``livewell``
what_if      the same question with one thing changed
forms        the sentence with blanks, read into a question
words        the answer in sentences
pictures     the answer as charts
for_event    what is known of an event's water and tanks
"""
