"""Side pots: added, changed, removed while nobody has paid them."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.registration.domain.cash import side_pot
from weighin.registration.forms.money import SidePotForm
from weighin.registration.models import SidePot
from weighin.registration.queries.till import has_payments
from weighin.registration.services.side_pots import declare_side_pot, remove_side_pot
from weighin.ui.forms.service import ServiceForm

form_page = require_http_methods(["GET", "HEAD", "POST"])


@allow(Can.MANAGE_EVENT)
@form_page
def pot_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Add a side pot."""
    form = SidePotForm(request.POST or None)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: declare_side_pot(event, form.texts(data), by)):
        messages.info(request, gettext("Side pot %(name)s is added.") % {"name": form.kept.name})
        return redirect("registration:money", event.slug)
    return render(request, "registration/pot.html", {"event": event, "form": form})


@allow(Can.MANAGE_EVENT)
@form_page
def pot(request: HttpRequest, event: Event, pot_pk: int) -> HttpResponse:
    """Change a side pot, or remove it."""
    old = SidePot.objects.filter(event=event, pk=pot_pk).select_related("event").first()
    if old is None:
        raise Http404(gettext("There is no such side pot in this event."))
    by, act = request.user.get_username(), request.POST.get("act", "")
    paid = has_payments(event, side_pot(old.name))
    form = SidePotForm(request.POST if act == "change" else None, old=old, is_paid=paid)
    remove = ServiceForm(request.POST if act == "remove" else None)
    if act == "change" and form.attempt(lambda data: declare_side_pot(event, form.texts(data), by, old)):
        messages.info(request, gettext("Side pot %(name)s is changed.") % {"name": form.kept.name})
        return redirect("registration:money", event.slug)
    if act == "remove" and remove.attempt(lambda data: remove_side_pot(old, by)):
        messages.info(request, gettext("Side pot %(name)s is removed.") % {"name": old.name})
        return redirect("registration:money", event.slug)
    context = {"event": event, "form": form, "remove": remove, "old": old, "paid": paid}
    return render(request, "registration/pot.html", context)
