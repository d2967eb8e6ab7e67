"""What every answer says to browsers, static files' and refusals' too.

The Content-Security-Policy is put together once: no page changes it, and putting it together costs as much as half of
the other middleware.
"""

from collections.abc import Callable
from typing import Any

from csp.constants import HEADER
from csp.middleware import CSPMiddleware
from csp.utils import build_policy
from django.http import HttpRequest
from django.http.response import HttpResponseBase

# A tablet reads the scale on its port; nothing else of a device is asked for
PERMISSIONS = ", ".join(
    ["serial=(self)", "fullscreen=(self)"]
    + [
        f"{feature}=()"
        for feature in (
            "accelerometer", "camera", "display-capture", "geolocation", "gyroscope", "magnetometer", "microphone", "midi",
            "payment", "usb",
        )
    ]
)  # fmt: skip
# Browsers heed it over https only, and complain of it elsewhere
OPENER = "Cross-Origin-Opener-Policy"


class ConstantPolicyMiddleware(CSPMiddleware):
    """Sends the policies of the site with every answer; over https cookies are marked Secure."""

    def __init__(self, get_response: Callable[[HttpRequest], Any]):
        super().__init__(get_response)
        self.policy = build_policy()

    def process_request(self, request: HttpRequest) -> None:
        return None

    def process_response(self, request: HttpRequest, response: HttpResponseBase) -> HttpResponseBase:
        response.headers.setdefault(HEADER, self.policy)
        response.headers["Permissions-Policy"] = PERMISSIONS
        if request.is_secure():
            response.headers[OPENER] = "same-origin"
            for cookie in response.cookies.values():
                cookie["secure"] = True
        return response
