"""The event's day, histories, and workbooks on their way in."""

from typing import Any
from zoneinfo import ZoneInfo

from django.conf import settings
from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext, ngettext
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.audit.queries import club_history as history_of_club
from weighin.audit.queries import event_history
from weighin.clubs.access import allow_in_club, can_in, require
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import flight_names
from weighin.letters.queries import mail_is_set
from weighin.operations.domain.faults import WORD_OVERTAKEN
from weighin.operations.forms import NextEventForm, OpenQuestionsForm, WorkbookForm
from weighin.operations.pages.aside import put_beside
from weighin.operations.pages.checked import said_of_file
from weighin.operations.pages.day_figures import day_figures
from weighin.operations.pages.telling import shown
from weighin.operations.pages.trust import BROWSERS
from weighin.operations.pages.words import words_of
from weighin.operations.queries.day import day_of
from weighin.operations.queries.open_questions import CLOSE, PUBLISH, open_questions
from weighin.operations.queries.verifying import NoResult
from weighin.operations.queries.verifying_proof import ProofVerdict
from weighin.operations.services import checking, publishing, telling
from weighin.operations.services.certificates import LakeCertificate
from weighin.operations.services.imports import Job, NoSuchJob, preview
from weighin.rules.faults import Faults
from weighin.schedule.pages.next_act import next_act
from weighin.schedule.queries.next_event import going_along
from weighin.schedule.queries.notices import last_notices
from weighin.schedule.services.next_event import make_next
from weighin.slips.queries.ledger import breaks
from weighin.slips.queries.slips import slips
from weighin.standings.pages.changes import changes_since
from weighin.standings.pages.state_words import state_said
from weighin.standings.queries.days import days_of, stage_of
from weighin.standings.queries.proof import proof_now
from weighin.standings.queries.protests import minutes_of, result_state
from weighin.standings.queries.standings import official_results, standings_of
from weighin.ui.forms.service import sentence

A_PAGE, LEADERS = 50, 5


@require_safe
def certificate(request: HttpRequest) -> HttpResponse:
    """How a device goes on past the lake's own certificate, or trusts it; not there where the site has none."""
    return render(request, "operations/certificate.html", {"certificate": _lake_certificate(), "browsers": BROWSERS})


@require_safe
def authority(request: HttpRequest) -> HttpResponse:
    """The certificate of the lake's authority, for devices that are to trust it."""
    text = _lake_certificate().authority.read_bytes()
    return HttpResponse(text, content_type="application/x-x509-ca-cert", headers={"Cache-Control": "no-store"})


@require_safe
@allow(Can.VIEW_EVENT)
def day(request: HttpRequest, event: Event) -> HttpResponse:
    """The event's page: how far the day is, and what needs somebody."""
    cans = {can for can in Can if can_in(request.user, event.club, can)}
    found = day_of(event, cans)
    context = {"event": event, "day": found, "unit": event.weight_unit}
    context |= {"act": next_act(event, found.state, cans), "figures": day_figures(event, found, cans)}
    return render(request, "operations/day.html", context)


@require_safe
@allow(Can.VIEW_EVENT)
def lake(request: HttpRequest, event: Event) -> HttpResponse:
    """What to bring to the lake, and what to do when something dies; to print."""
    return render(request, "operations/lake.html", {"event": event})


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.PUBLISH)
def publish(request: HttpRequest, event: Event) -> HttpResponse:
    """What stands open, by day, and then the publishing of the next official version."""
    versions = official_results(event)
    standings = standings_of(event)
    state = result_state(event)
    questions = open_questions(event, PUBLISH, standings)
    over = state.state != "live" and all(question.code != "protest_time_runs" for question in questions)
    form = OpenQuestionsForm(
        request.POST or None,
        questions=questions,
        sure=(
            gettext("The time for protests is over, and these places are to be official.")
            if over
            else gettext("These places are to be official.")
        ),
        later=bool(versions),
    )
    by = request.user.get_username()
    if request.POST.get("act") == "post":
        said = state_said(publishing.post(event, by), ZoneInfo(event.time_zone))
        messages.info(request, said or gettext("The pages are open to everyone."))
        return redirect("operations:publish", event.slug)
    if request.method == "POST" and form.attempt(
        lambda data: publishing.publish(event, by, data.get("reason", ""), form.overruled())
    ):
        messages.info(
            request,
            (
                gettext("Version %(version)s is official, and everyone may read it.")
                if event.rehearsal_of_id is None
                else gettext("Version %(version)s is official in the rehearsal. Only members see it.")
            )
            % {"version": form.kept.version},
        )
        return redirect("standings:results", event.slug)
    context = {
        "event": event,
        "form": form,
        "next_version": versions[0].version + 1 if versions else 1,
        "stage": stage_of(days_of(standings), timezone.now()),
        "leaders": [row for row in standings.outcome.ranked if row.place is not None][:LEADERS],
        "unit": event.weight_unit,
        "proof": proof_now(event),
        "state": state,
        "state_said": state_said(state, ZoneInfo(event.time_zone)),
        "minutes": minutes_of(event),
        "may_post": not versions and bool(standings.slips),
        "changes": changes_since(next(iter(versions), None), standings, publishing.side_pots_won(event, standings)),
    }
    return render(request, "operations/publish.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.PUBLISH)
def close(request: HttpRequest, event: Event) -> HttpResponse:
    """What stands open, by day, and then the closing of the event."""
    if event.closed_at is not None:
        return redirect("standings:results", event.slug)
    form = OpenQuestionsForm(
        request.POST or None,
        questions=open_questions(event, CLOSE),
        sure=gettext("Nothing more is to be written of this event."),
    )
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: publishing.close(event, by, form.overruled())):
        messages.info(request, gettext("%(name)s is closed.") % {"name": event.name})
        return redirect("standings:results", event.slug)
    return render(request, "operations/close.html", {"event": event, "form": form, "proof": proof_now(event)})


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
def next_event(request: HttpRequest, event: Event) -> HttpResponse:
    """Add the next event from this one, in one act."""
    form = NextEventForm(request.POST or None, event=event)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: make_next(event, data, by)):
        messages.info(
            request,
            gettext("%(made)s is added from %(before)s. No team has paid yet.")
            % {"made": form.kept.name, "before": event.name},
        )
        return redirect("events:setup", form.kept.slug)
    context = {"event": event, "form": form, "teams": len(going_along(event)), "days": event.event_days.count()}
    context["flights"] = len(flight_names(event))
    return render(request, "operations/next_event.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.SEE_CONTACTS)
def words(request: HttpRequest, event: Event) -> HttpResponse:
    """What there is to tell the teams: a text to copy, who is reached how, and the e-mail, sent by a person's act."""
    found = words_of(event, request.build_absolute_uri("/").rstrip("/"))
    if request.method == "POST":
        by, act = request.user.get_username(), request.POST.get("act")
        word = next((one for one in found if one.about == request.POST.get("about")), None)
        try:
            if word is None:
                raise Faults([WORD_OVERTAKEN.at("")])
            require(request.user, event.club, word.can)
            if act == "said":
                count = telling.note_said(event, word, by)
                done = ngettext("Noted: %(n)s team was told.", "Noted: %(n)s teams were told.", count)
            else:
                count = telling.send_word(event, word, by)
                done = ngettext("E-mail to %(n)s team is on its way.", "E-mail to %(n)s teams is on its way.", count)
            messages.info(request, done % {"n": count})
        except Faults as faults:
            for fault in faults.faults:
                messages.error(request, sentence(fault.message))
        return redirect("operations:words", event.slug)
    context = {
        "event": event,
        "words": shown(event, found, request.user),
        "mails": mail_is_set(),
        "notice": last_notices([event.pk]).get(event.pk),
    }
    return render(request, "operations/teams/words.html", context)


@require_safe
@allow(Can.VIEW_HISTORY)
def history(request: HttpRequest, event: Event) -> HttpResponse:
    """What was done to the event, by whom, and whether its ledger of slips holds."""
    faults = breaks(slips(event).order_by("position"))
    context = {"event": event, "page": _page(request, event_history(event.pk)), "faults": faults}
    return render(request, "operations/history.html", context)


@require_safe
@allow_in_club(Can.VIEW_HISTORY)
def club_history(request: HttpRequest, club: Club) -> HttpResponse:
    """What was done in the club."""
    page = _page(request, history_of_club(club.pk))
    names = {event.pk: event for event in Event.everyone.filter(season__club=club)}
    for entry in page.object_list:
        event = names.get(entry.event_id)
        entry.event_name, entry.event_slug = (event.name, event.slug) if event else ("", "")
    return render(request, "operations/club_history.html", {"club": club, "page": page})


@require_http_methods(["GET", "HEAD", "POST"])
@allow_in_club(Can.IMPORT_EVENT)
def bring_in(request: HttpRequest, club: Club) -> HttpResponse:
    """Choose a workbook."""
    form = WorkbookForm(request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        job = Job.start(club, form.cleaned_data["workbook"])
        return redirect("operations:import_job", club.slug, job.key)
    return render(request, "operations/import.html", {"club": club, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
@allow_in_club(Can.IMPORT_EVENT)
def import_job(request: HttpRequest, club: Club, key: str) -> HttpResponse:
    """Preview and faults of a workbook; then bring it in."""
    job = _job(club, key)
    context: dict[str, Any] = {"club": club, "job": job}
    if request.method == "POST":
        try:
            job.bring_in(request.user.get_username(), replace="replace" in request.POST)
        except Faults as faults:
            context["refused"] = faults.faults
    if job.slug:
        return redirect("operations:day", job.slug)
    plan, report = job.read()
    context.update(report=report, **(preview(club, plan) if plan else {"plan": None}))
    return render(request, "operations/import_preview.html", context)


def _job(club: Club, key: str) -> Job:
    try:
        return Job(club, key)
    except NoSuchJob:
        raise Http404(gettext("This workbook is no longer here: it is kept for a day. Choose it again.")) from None


def _page(request: HttpRequest, entries: Any) -> Any:
    page = Paginator(entries, A_PAGE).get_page(request.GET.get("page"))
    put_beside(page.object_list)
    return page


@csrf_exempt  # nothing is written, and whoever brings a file has no session
@require_http_methods(["GET", "HEAD", "POST"])
def check_file(request: HttpRequest) -> HttpResponse:
    """Hold a published file, brought by anyone, against what this site keeps."""
    if request.method != "POST":
        return render(request, "operations/check_file.html", {})
    context: dict[str, Any] = {}
    status = 200
    if int(request.META.get("CONTENT_LENGTH") or 0) > checking.MOST_BYTES:
        context["refused"], status = gettext("A file of at most 4 MB is taken: choose the JSON of one event."), 413
    elif (file := request.FILES.get("file")) is None:
        context["refused"], status = gettext("No file was chosen: choose the JSON of an event."), 400
    else:
        try:
            name = (file.name or gettext("The file"))[:80]
            context["event"], found, context["holds"] = checking.check_for_anyone(file.read(), name)
            context["verdict"] = found.kept if isinstance(found, ProofVerdict) else found
            context["alone"] = found if isinstance(found, ProofVerdict) else None
        except NoResult as refused:
            context["refused"] = str(refused)
        except checking.Busy:
            context["refused"] = gettext(
                "Files are checked one after another, and one was checked just now: choose yours again in a few seconds."
            )
            status = 429
    if "application/json" in request.headers.get(
        "Accept", ""
    ):  # the page's script, which has checked the file by itself
        return JsonResponse(said_of_file(context), status=status)
    return render(request, "operations/check_file.html", context, status=status)


def _lake_certificate() -> LakeCertificate:
    found: LakeCertificate | None = settings.LAKE_CERTIFICATE
    if found is None:
        raise Http404("This site encrypts with no certificate of its own.")
    return found
