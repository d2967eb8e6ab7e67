"""Gather the texts for people into the catalogues, sentences of faults with their plurals too.

A text that is new has no translation yet: none is guessed from a text like it.
"""

from django.core.management.commands import makemessages


class Command(makemessages.Command):
    xgettext_options = [*makemessages.Command.xgettext_options, "--keyword=ngettext_noop:1,2"]
    msgmerge_options = [*makemessages.Command.msgmerge_options, "--no-fuzzy-matching"]
