"""What a browser asks about the lake's own certificate, and how a device comes to trust it: for the terminal and for the page."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext_lazy

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


@dataclass(frozen=True)
class Browser:
    """A browser by its device, what it says, what to press to go on, and how to trust the authority for good."""

    name: "StrOrPromise"
    goes_on: "StrOrPromise"
    trusts: "StrOrPromise"


BROWSERS = (
    Browser(
        gettext_lazy("Chrome and Edge, on Android and Windows"),
        gettext_lazy("“Your connection is not private”: Advanced, then Proceed (Edge: Continue)."),
        gettext_lazy(
            "Android: Settings, Security, Encryption and credentials, Install a certificate, CA certificate. Windows: "
            "open the file, Install Certificate, Trusted Root Certification Authorities."
        ),
    ),
    Browser(
        gettext_lazy("Safari, on iPhone, iPad and Mac"),
        gettext_lazy("“This Connection Is Not Private”: Show Details, then visit this website."),
        gettext_lazy(
            "iPhone and iPad: open the file, then Settings, Profile Downloaded, Install; then Settings, General, About, "
            "Certificate Trust Settings, switch it on. Mac: open the file, in Keychain Access set it to Always Trust."
        ),
    ),
    Browser(
        gettext_lazy("Firefox"),
        gettext_lazy("“Warning: Potential Security Risk Ahead”: Advanced, then Accept the Risk and Continue."),
        gettext_lazy("Settings, Privacy & Security, View Certificates, Authorities, Import."),
    ),
)
