"""A list of teams on its way in: looked at first, then all of it or nothing."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.roster.services.team_lists import import_list
from weighin.rules.faults import Faults
from weighin.ui.forms.service import sentence
from weighin.workbooks.forms import TeamListForm
from weighin.workbooks.pages import Preview, pots_without_fee, preview_of


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_TEAMS)
def import_teams(request: HttpRequest, event: Event) -> HttpResponse:
    """Choose or paste a list, see what stands in it, say what its columns mean, and bring its teams in."""
    form = TeamListForm(request.POST or None, request.FILES or None)
    preview: Preview | None = None
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        if not said["file"] and not said["text"].strip():
            form.add_error(None, gettext("Choose a file or paste a list."))
        else:
            preview = preview_of(event, said, request.POST)
            looked_at = request.POST.get("act") == "enter" and request.POST.get("seen") == preview.seen
            if looked_at and preview.ready and _enter(request, event, form, preview):
                return redirect("roster:teams", event.slug)
            if preview.text is not None:
                shown = request.POST.copy()
                shown["text"] = preview.text
                form.data = shown
    context = {
        "event": event,
        "form": form,
        "preview": preview,
        "pots_without_fee": pots_without_fee(event, preview),
    }
    return render(request, "workbooks/import_teams.html", context)


def _enter(request: HttpRequest, event: Event, form: TeamListForm, preview: Preview) -> bool:
    """Bcall the teams in. False where something was wrong after all, which the page then shows."""
    by = request.user.get_username()
    try:
        found = import_list(event, preview.grid, by, preview.matching, form.cleaned_data["namesakes"])
    except Faults as faults:
        for fault in faults.faults:
            form.add_error(None, sentence(fault.message))
        return False
    if found.faults:
        preview.found = found
        return False
    teams = len(found.rows)
    messages.info(request, ngettext("%(n)s team imported.", "%(n)s teams imported.", teams) % {"n": teams})
    return True
