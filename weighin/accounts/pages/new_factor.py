"""Set the second factor up: the key as a code to photograph and as text, and a first code that shows that it works."""

from typing import Any

from django.http import HttpRequest
from django.utils.translation import gettext

from weighin.accounts.domain.codes import address_of, in_groups, new_key
from weighin.accounts.forms import CodeForm
from weighin.accounts.models import User
from weighin.accounts.services import second_factors
from weighin.ui.codes import code

KEY = "new_key"


def new_factor(request: HttpRequest, person: User) -> tuple[bool, dict[str, Any]]:
    """Whether it is on now, with the recovery codes as ``codes``; else the form with the key.

    The key waits in the session until its first code is right.
    """
    key = request.session.get(KEY) or new_key()
    form = CodeForm(request.POST or None)
    if request.method == "POST" and form.attempt(lambda data: second_factors.turn_on(person, key, data["code"])):
        request.session.pop(KEY, None)
        return True, {"codes": form.kept}
    request.session[KEY] = key
    drawn = code(address_of(key, person.get_username()), gettext("Code of the key for an app that makes codes"))
    return False, {"form": form, "key": in_groups(key), "drawn": drawn}
