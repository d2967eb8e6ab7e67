"""Gather the texts for people into the catalogues, sentences of faults with their plurals too."""

from django.core.management.commands import makemessages


class Command(makemessages.Command):
    xgettext_options = [*makemessages.Command.xgettext_options, "--keyword=ngettext_noop:1,2"]
