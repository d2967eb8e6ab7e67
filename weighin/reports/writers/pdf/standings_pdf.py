"""The standings as a PDF to post on the board."""

from dataclasses import replace

from django.utils import timezone
from django.utils.translation import gettext

from weighin.audit.domain.reading_out import read_out
from weighin.reports.queries.event_json import WholeEvent
from weighin.reports.sheets.standings import standings_sheet, state_of, ties_in_words
from weighin.reports.writers.pdf.check_code import check_of
from weighin.reports.writers.pdf.document import PdfDocument, facts
from weighin.standings.queries.days import days_of, days_said
from weighin.standings.queries.proof import Proof, proof_of
from weighin.standings.queries.standings import official_results
from weighin.ui import figures
from weighin.ui.nouns import counted


def standings_pdf(whole: WholeEvent, site: str = "") -> bytes:
    """Place by place with what was taken off, the money, ties in words, and the ledger's head.

    A published official result says how it is checked, by a code where ``site`` is the site's address.
    """
    event, standings = whole.event, whole.standings
    zone = standings.table.calendar.zone
    length, head = whole.ledger
    found = state_of(whole)
    state = found.words
    printed = timezone.now().astimezone(zone)
    document = PdfDocument(
        title=gettext("Standings of %(name)s, %(state)s") % {"name": event.name, "state": state},
        subject=f"{event.club.name}, {event.water.name}, {figures.day(event.date)}",
        foot=gettext("%(name)s, %(state)s; %(length)s slips, proof %(head)s; printed %(printed)s")
        % {
            "name": event.name,
            "state": state,
            "length": length,
            "head": read_out(head),
            "printed": figures.zoned(printed),
        },
    )
    document.small(gettext("%(club)s, season %(season)s") % {"club": event.club.name, "season": event.season.name})
    document.heading(gettext("%(name)s: standings, %(state)s") % {"name": event.name, "state": state}, first=True)
    counted = days_said(days_of(standings), zone)
    counted = counted or gettext("%(weighed)s of %(entered)s boats weighed.") % {
        "weighed": len(standings.weighed),
        "entered": len(standings.entered),
    }
    document.says(
        f"{event.water.name}, {figures.day(event.date)}. {counted} "
        + gettext("Weights in %(unit)s, money in %(currency)s.")
        % {"unit": event.weight_unit, "currency": event.club.currency}
    )
    document.sheet(standings_sheet(whole, replace(found, stage="")))  # the heading says the stage
    purse = standings.outcome.purse
    document.heading(gettext("Money"))
    document.parts.append(
        facts(
            [
                (gettext("Paid entries"), str(purse.paid_entries)),
                (gettext("Purse"), figures.money(purse.purse)),
                (gettext("Places paid"), str(purse.places_paid)),
                (gettext("Big fish pot"), figures.money(purse.big_fish_pot)),
                (gettext("Not claimed"), figures.money(purse.unclaimed + purse.big_fish_pot_unclaimed)),
            ]
        )
    )
    ties = ties_in_words(standings)
    if ties:
        document.heading(gettext("Level totals"))
        for sentence in ties:
            document.text(sentence)
    _proof(document, whole, found.official)
    if found.official:
        check_of(document, event, site)
    document.space()
    document.small(
        gettext(
            "Each total can be opened into the lines that made it on the event’s page, which is also the form for screen readers."
        )
    )
    return document.build()


def _proof(document: PdfDocument, whole: WholeEvent, official: bool) -> None:
    """How many slips and lines of history, and the figures in which they end."""
    length, head = whole.ledger
    if not length:
        return
    proof = proof_of(official_results(whole.event)[0]) if official else Proof(length, read_out(head))
    document.heading(gettext("Proof of the slips"))
    lines = [(counted(proof.slips, "slip"), proof.slip_figures)]
    if proof.lines:
        lines.append((counted(proof.lines, "line of history"), proof.line_figures))
    document.parts.append(facts(lines))
