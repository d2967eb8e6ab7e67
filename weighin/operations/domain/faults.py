"""What can be wrong with publishing and closing."""

from weighin.rules.faults import Sentence, gettext_noop

NOT_SETTLED = Sentence("question_not_settled", gettext_noop("%(question)s This must be settled first"))
NOT_ANSWERED = Sentence("question_not_answered", gettext_noop("%(question)s Settle it, or write why it may stand"))
REASON_TOO_LONG = Sentence(
    "overruling_reason_too_long", gettext_noop("the reason has %(has)s characters: shorten it to %(most)s")
)
TOLD_ALREADY = Sentence(
    "teams_told_already", gettext_noop("every team that can be told this way has been told: look at who is left")
)
NO_MAIL_SET = Sentence(
    "no_mail_is_set", gettext_noop("this site sends no e-mail: copy the text, and send it from your own phone")
)
WORD_OVERTAKEN = Sentence(
    "word_overtaken", gettext_noop("this was overtaken meanwhile, so nothing was sent: read what stands now")
)
