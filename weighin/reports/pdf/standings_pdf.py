"""The standings as a PDF to post on the board."""

from dataclasses import replace

from django.utils import timezone

from weighin.reports.event_json import WholeEvent
from weighin.reports.pdf.document import PdfDocument, facts
from weighin.reports.standings_sheet import standings_sheet, state_of, ties_in_words
from weighin.standings.days import days_of, days_said


def standings_pdf(whole: WholeEvent) -> bytes:
    """Place by place with what was taken off, the money, ties in words, and the ledger's head."""
    event, standings = whole.event, whole.standings
    zone = standings.table.calendar.zone
    length, head = whole.ledger
    found = state_of(whole)
    state = found.words
    printed = timezone.now().astimezone(zone)
    document = PdfDocument(
        title=f"Standings of {event.name}, {state}",
        subject=f"{event.club.name}, {event.water.name}, {event.date.isoformat()}",
        foot=f"{event.name}, {state}; {length} slips, ledger head {head[:16]}; printed {printed:%Y-%m-%d %H:%M}",
    )
    document.small(f"{event.club.name}, season {event.season.name}")
    document.heading(f"{event.name}: standings, {state}", first=True)
    counted = days_said(days_of(standings), zone)
    counted = counted or f"{len(standings.weighed)} of {len(standings.entered)} boats weighed."
    document.says(
        f"{event.water.name}, {event.date:%A} {event.date.day} {event.date:%B %Y}. "
        f"{counted} Weights in {event.weight_unit}."
    )
    document.sheet(standings_sheet(whole, replace(found, stage="")))  # the heading says the stage
    purse = standings.outcome.purse
    document.heading("Money")
    document.parts.append(
        facts(
            [
                ("Paid entries", str(purse.paid_entries)),
                ("Purse", f"{purse.purse:,.2f}"),
                ("Places paid", str(purse.places_paid)),
                ("Big fish pot", f"{purse.big_fish_pot:,.2f}"),
                ("Not claimed", f"{purse.unclaimed + purse.big_fish_pot_unclaimed:,.2f}"),
            ]
        )
    )
    ties = ties_in_words(standings)
    if ties:
        document.heading("Level totals")
        for sentence in ties:
            document.text(sentence)
    document.space()
    document.small(
        "Each total can be opened into the lines that made it on the event's page, which is also the form for screen readers."
    )
    return document.build()
