"""Settings of the site. What a site may change stands in environment.py."""

from pathlib import Path

from csp.constants import NONE, SELF

from weighin import environment

BASE = Path(__file__).resolve().parent.parent
DATA = environment.data_folder(BASE / "var")

SECRET_KEY = environment.secret_key(DATA)
DEBUG = environment.debug()
ALLOWED_HOSTS = environment.hosts()
PROXIES = environment.proxies()
# Behind a proxy that nobody named, the browser names an https origin and the proxy asks us by http.
CSRF_TRUSTED_ORIGINS = [f"https://{host}" for host in ALLOWED_HOSTS]
DATABASES = {"default": environment.database(DATA)}
BACKUP_TO = environment.backup_to()
_mail = environment.mail()
MAIL_FROM: str = _mail["MAIL_FROM"]
globals().update(_mail)  # EMAIL_BACKEND and what it needs

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.forms",
    "django_tables2",
    "django_htmx",
    "csp",
    "weighin.ui",
    "weighin.audit",
    "weighin.letters",
    "weighin.accounts",
    "weighin.clubs",
    "weighin.events",
    "weighin.records",
    "weighin.roster",
    "weighin.checkin",
    "weighin.scales",
    "weighin.slips",
    "weighin.line",
    "weighin.stations",
    "weighin.planning",
    "weighin.tanks",
    "weighin.holding",
    "weighin.care",
    "weighin.standings",
    "weighin.registration",
    "weighin.signup",
    "weighin.schedule",
    "weighin.proof",
    "weighin.mortality",
    "weighin.advice",
    "weighin.reports",
    "weighin.seasons",
    "weighin.agency",
    "weighin.book",
    "weighin.public",
    "weighin.workbooks",
    "weighin.privacy",
    "weighin.safekeeping",
    "weighin.operations",
    "weighin.rehearsal",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "weighin.ui.middleware.policy.ConstantPolicyMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "weighin.ui.middleware.language.LanguageMiddleware",
    "weighin.accounts.middleware.private_pages.PrivatePagesMiddleware",
    "weighin.ui.middleware.not_allowed.NotAllowedMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "weighin.accounts.middleware.security.SecurityMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]

ROOT_URLCONF = "weighin.urls"
WSGI_APPLICATION = "weighin.wsgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "weighin.clubs.access.cans",
            ],
        },
    }
]
FORM_RENDERER = "weighin.ui.forms.renderer.BookForms"

AUTH_USER_MODEL = "accounts.User"
LOGIN_URL = "accounts:sign_in"
LOGIN_REDIRECT_URL = "events:mine"
LOGOUT_REDIRECT_URL = "public:home"
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 8}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]

# Every text goes through gettext; tests/language reads a language of their own too.
LANGUAGE_CODE = "en"
LANGUAGES = [("en", "English"), ("es", "Español")]
LANGUAGE_COOKIE_NAME = "language"
LOCALE_PATHS = [BASE / "weighin" / "locale"]
FORMAT_MODULE_PATH = "weighin.ui.formats"
USE_I18N = True
USE_TZ = True
TIME_ZONE = "UTC"

STATIC_URL = "/static/"
STATIC_ROOT = environment.folder(DATA / "static")
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage", "OPTIONS": {"location": DATA / "files"}},
    "staticfiles": {"BACKEND": "weighin.ui.storage.FingerprintedFiles"},
}
# ``serve`` collects and fingerprints the static files; all else finds them where they lie.
WHITENOISE_USE_FINDERS = True

# Only what is counted against guessing: pages are kept by weighin.ui.kept
CACHES = {"default": environment.counts(DATABASES["default"])}

# A tablet at the lake may talk plain http over the local network, so nothing here demands https: what only https can
# have (Secure cookies, an opener policy) goes with each answer over https (ui/middleware/policy.py). Browsers are told to
# come by https only for a year behind a proxy, whose certificate they trust; never by ``serve --https``, whose own
# certificate they may not: they would let nobody go on.
LAKE_CERTIFICATE = None  # that of ``serve --https``, while it serves
SECURE_HSTS_SECONDS = 60 * 60 * 24 * 365 if PROXIES else 0
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_AGE = 60 * 60 * 12
CSRF_COOKIE_SAMESITE = "Lax"
X_FRAME_OPTIONS = "DENY"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = None
DATA_UPLOAD_MAX_MEMORY_SIZE = 2 * 1024 * 1024
FILE_UPLOAD_MAX_MEMORY_SIZE = 2 * 1024 * 1024
MESSAGE_STORAGE = "django.contrib.messages.storage.session.SessionStorage"

# Nobody reads mail at the lake: faults go to the terminal and to a file. A page that is missing is no fault.
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {
        "terminal": {"class": "logging.StreamHandler", "formatter": "line"},
        "file": {
            "class": "logging.handlers.RotatingFileHandler",
            "filename": environment.folder(DATA / "logs") / "weighin.log",
            "maxBytes": 1_000_000,
            "backupCount": 5,
            "delay": True,
            "encoding": "utf-8",
            "formatter": "line",
        },
        "none": {"class": "logging.NullHandler"},
    },
    "root": {"handlers": ["terminal", "file"], "level": "WARNING"},
    "loggers": {
        "django": {"handlers": [], "level": "WARNING", "propagate": True},
        "django.request": {"level": "ERROR"},
        "django.security.DisallowedHost": {"handlers": ["none"], "propagate": False},
        # A short queue is how eight threads serve a full landing, not a fault.
        "waitress.queue": {"level": "ERROR"},
    },
}

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "object-src": [NONE],
        "base-uri": [NONE],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
    }
}
