"""The rule sheet: read in words and figures, and changed until the first slip."""

from itertools import count

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.domain.fees import is_paid
from weighin.events.forms.rules import RulesForm, sections
from weighin.events.models import Event
from weighin.events.queries.club_sheets import copied_from, same_as
from weighin.events.queries.events import first_slip, rules_of, rules_said
from weighin.events.services.rule_sheet import change_rules, locked_sentence
from weighin.rules.sheet.keys import KEYS, OF_SEASON_ALONE
from weighin.rules.sheets.changes import changes_in
from weighin.rules.words.sheet import sheet_in_words


@allow(Can.VIEW_EVENT)
@require_safe
def rules(request: HttpRequest, event: Event) -> HttpResponse:
    """The whole sheet in words, then key by key with meaning and default."""
    book = rules_of(event)
    lines = sections(book.written(), event.weight_unit)
    numbers = count(1)
    slip = first_slip(event)
    context = {
        "event": event,
        "words": sheet_in_words(rules_said(event)),
        "sections": [
            (name, [(next(numbers), line) for line in found], sum(line.changed for line in found))
            for name, found in lines
        ],
        "total": len(KEYS),
        "changed": sum(line.changed for _, found in lines for line in found),
        "locked": None if slip is None else locked_sentence(slip),
        "copied": copied_from(event),
        "same_as": same_as(event),
        "rule_changes": changes_in(event.rule_sheet.versions),
    }
    return render(request, "events/rules.html", context)


@allow(Can.MANAGE_EVENT)
@require_http_methods(["GET", "HEAD", "POST"])
def rules_edit(request: HttpRequest, event: Event) -> HttpResponse:
    """Change the rule sheet."""
    slip = first_slip(event)
    paid = is_paid(event, "big_fish_pot")
    written = rules_of(event).written()
    of_season = OF_SEASON_ALONE if event.season.rules else ()
    form = RulesForm(
        request.POST or None, written=written, unit=event.weight_unit, pot_is_paid=paid, left_out=of_season
    )
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: change_rules(event, data, by)):
        messages.info(request, gettext("The rules are saved."))
        return redirect("events:rules", event.slug)
    locked = None if slip is None else locked_sentence(slip)
    return render(request, "events/rules_edit.html", {"event": event, "form": form, "locked": locked})
