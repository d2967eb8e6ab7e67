"""What is wrong with a person's name, user name or password."""

from weighin.rules.faults import Sentence, gettext_noop

USER_NAME_TAKEN = Sentence(
    "user_name_taken", gettext_noop("the user name %(username)s is taken: choose another user name")
)
NOT_YOUR_PASSWORD = Sentence(
    "not_your_password", gettext_noop("this is not your password now: write the one you signed in with")
)
ODD_USER_NAME = Sentence(
    "odd_user_name", gettext_noop("write letters, figures and @ . + - _ only, without spaces, such as r.castellan")
)
PERSON_WITHOUT_NAME = Sentence("person_without_name", gettext_noop("write the person’s name as others should read it"))
WEAK_PASSWORD = Sentence("weak_password", gettext_noop("%(why)s Choose a longer one, such as four words."))
SAME_PASSWORD = Sentence("same_password", gettext_noop("this is the password that you were given: choose another one"))
GUESSED_PASSWORD = Sentence(
    "guessed_password",
    gettext_noop(
        "this is little more than '%(said)s', which anybody at the lake would try first: choose four words that have nothing to do with it"
    ),
)
USER_NAME_LOOKS_LIKE = Sentence(
    "user_name_looks_like",
    gettext_noop(
        "this looks like the user name %(username)s, which is another person: choose one that cannot be mixed up"
    ),
)
NOT_THE_CODE = Sentence(
    "not_the_code",
    gettext_noop(
        "this code does not open: write the six figures that the app shows now, or a recovery code that was not used yet. Each is good once; check that the telephone sets its clock by itself"
    ),
)
NOT_THE_APPS_CODE = Sentence(
    "not_the_apps_code",
    gettext_noop(
        "this is not the code of this key: write the six figures that the app shows now, and check that the phone sets its clock by itself"
    ),
)
FACTOR_ON_ALREADY = Sentence("factor_on_already", gettext_noop("the second factor is on already"))
FACTOR_IS_ASKED = Sentence(
    "factor_is_asked", gettext_noop("a club of yours asks its directors for a second factor: it stays on")
)
WAIT_FOR_CODE = Sentence(
    "wait_for_code", gettext_noop("too many wrong codes one after another: wait %(wait)s s, then send it again")
)
