"""Look whether machine and site are fit for the day."""

import sys
from itertools import chain
from typing import Any

from django.core.management.base import BaseCommand
from django.utils.translation import gettext

from weighin.operations.queries.doctor import examine
from weighin.operations.services.trying import try_writing


class Command(BaseCommand):
    help = (
        "Look at the disk, the key, the database, the ledgers, the clock and the backups, and write where a day writes; "
        "say what is not well and what to do."
    )

    def handle(self, *args: Any, **options: Any) -> None:
        faults = 0
        for point in chain(examine(), try_writing()):
            faults += not point.well
            self.stdout.write(f"{'well' if point.well else 'MEND'}  {point.sentence}")
        self.stdout.write(
            gettext("Fit for the day.") if not faults else gettext("%(faults)s to mend.") % {"faults": faults}
        )
        if faults:
            sys.exit(1)
