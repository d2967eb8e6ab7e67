"""The Content-Security-Policy header, put together once: no page changes it, and putting it together costs as much as
half of the other middleware."""

from collections.abc import Callable
from typing import Any

from csp.constants import HEADER
from csp.middleware import CSPMiddleware
from csp.utils import build_policy
from django.http import HttpRequest
from django.http.response import HttpResponseBase


class ConstantPolicyMiddleware(CSPMiddleware):
    """Sends the policy of the settings with every answer."""

    def __init__(self, get_response: Callable[[HttpRequest], Any]):
        super().__init__(get_response)
        self.policy = build_policy()

    def process_request(self, request: HttpRequest) -> None:
        return None

    def process_response(self, request: HttpRequest, response: HttpResponseBase) -> HttpResponseBase:
        response.headers.setdefault(HEADER, self.policy)
        return response
