"""The page that removes an event made by mistake."""

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext, gettext_lazy
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.domain import entered
from weighin.events.models import Event
from weighin.events.services.deletion import recorded, remove_event
from weighin.ui.forms.service import ServiceForm


class RemovalForm(ServiceForm):
    """The event's name, typed, and why."""

    name = forms.CharField(
        label=gettext_lazy("The event’s name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "off"})
    )
    reason = forms.CharField(
        label=gettext_lazy("Why"), max_length=300, help_text=gettext_lazy("Stands in the club’s history for good.")
    )


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
def remove(request: HttpRequest, event: Event) -> HttpResponse:
    """Say what holds the event, or ask for its name and remove it."""
    club, by = event.club, request.user.get_username()
    form = RemovalForm(request.POST or None)
    if request.method == "POST" and form.attempt(lambda data: remove_event(event, data["name"], data["reason"], by)):
        messages.info(request, gettext("%(name)s is removed.") % {"name": event.name})
        return redirect("events:club", club.slug)
    context = {"event": event, "form": form, "holds": recorded(event), "teams": entered.count(event)}
    return render(request, "events/remove.html", context)
