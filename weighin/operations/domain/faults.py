"""What can be wrong with publishing and closing."""

from weighin.rules.faults import Sentence, gettext_noop

NOT_SETTLED = Sentence("question_not_settled", gettext_noop("%(question)s This must be settled first"))
NOT_ANSWERED = Sentence("question_not_answered", gettext_noop("%(question)s Settle it, or write why it may stand"))
REASON_TOO_LONG = Sentence(
    "overruling_reason_too_long", gettext_noop("the reason has %(has)s characters: shorten it to %(most)s")
)
