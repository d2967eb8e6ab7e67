"""The WSGI application that ``manage.py serve`` serves."""

import os

from django.conf import settings
from django.core.wsgi import get_wsgi_application

from weighin.operations.middleware.forwarded import believing

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "weighin.settings")
application = believing(get_wsgi_application(), settings.PROXIES)
