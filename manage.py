#!/usr/bin/env python
"""The site's command line."""

import os
import sys


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "weighin.settings")
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import execute_from_command_line

    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as error:
        # What is wrong with the environment is said in a sentence; where we noticed helps nobody.
        sys.exit(str(error))


if __name__ == "__main__":
    main()
