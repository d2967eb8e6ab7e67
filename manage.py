#!/usr/bin/env python
"""The site's command line."""

import os
import sys


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "weighin.settings")
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import execute_from_command_line
    from django.db import DatabaseError, OperationalError

    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as error:
        # What is wrong with the environment is said in a sentence; where we noticed helps nobody.
        sys.exit(str(error))
    except DatabaseError as error:
        said = str(error).strip().splitlines()[0] if str(error).strip() else "no answer"
        if "no such table" in said or "does not exist" in said or "no such column" in said:
            sys.exit("The database is not set up for this version: run 'manage.py migrate' first.")
        if "not a database" in said or "malformed" in said:
            sys.exit(
                f"The database is damaged or none at all ({said}): move its file away and put a backup in its place."
            )
        if isinstance(error, OperationalError):
            sys.exit(f"The database cannot be reached ({said}): check DATABASE_URL and that its server runs.")
        raise


if __name__ == "__main__":
    main()
