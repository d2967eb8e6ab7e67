"""What can be wrong with a folder for a copy of a club's site."""

from weighin.rules.faults import Sentence, gettext_noop

NO_FOLDER = Sentence("no_folder", gettext_noop("%(folder)s is a file: name a folder that is new, or empty"))
FOLDER_NOT_OURS = Sentence(
    "folder_not_ours",
    gettext_noop(
        "%(folder)s holds files that were not written here: name a folder that is new, or empty, or that this command wrote before"
    ),
)
FOLDER_OF_ANOTHER = Sentence(
    "folder_of_another", gettext_noop("%(folder)s is a copy of the club %(club)s: name another folder")
)
IN_THE_WAY = Sentence(
    "in_the_way",
    gettext_noop(
        "in %(folder)s something stands where a file should go that was not written here: %(paths)s; take it away, then run this again"
    ),
)
