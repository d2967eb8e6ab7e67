"""The WSGI application that ``manage.py serve`` serves: Django, behind the door of the pages that are kept."""

import os

from django.conf import settings
from django.core.wsgi import get_wsgi_application

from weighin.operations.middleware.forwarded import believing
from weighin.ui.middleware.kept_pages import KeptPagesFirst

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "weighin.settings")
application = believing(KeptPagesFirst(get_wsgi_application()), settings.PROXIES)
