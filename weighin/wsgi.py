"""The WSGI application that ``manage.py serve`` serves."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "weighin.settings")
application = get_wsgi_application()
