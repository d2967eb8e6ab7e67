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
PERSON_WITHOUT_NAME = Sentence("person_without_name", gettext_noop("write the person's name as others should read it"))
WEAK_PASSWORD = Sentence("weak_password", gettext_noop("%(why)s Choose a longer one, such as four words."))
