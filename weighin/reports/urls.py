from django.urls import path

from weighin.reports.views import briefing, files, launch_sheet, paper, pay_outs, rule_sheets, scale_checks, teams

app_name = "reports"
urlpatterns = [
    path("events/<slug:event_slug>/slips/<int:number>/print/", paper.slip_print, name="slip_pdf"),
    path("events/<slug:event_slug>/slips/print/", paper.day_slips, name="slips_pdf"),
    path("events/<slug:event_slug>/morning.pdf", paper.morning, name="morning"),
    path("events/<slug:event_slug>/boat-cards.pdf", paper.boat_cards, name="boat_cards"),
    path("events/<slug:event_slug>/pads/<int:pad_pk>/print.pdf", paper.pad_print, name="pad_pdf"),
    path("events/<slug:event_slug>/scales/checks.pdf", scale_checks.scale_checks, name="scale_checks"),
    path("events/<slug:event_slug>/launch-sheet.pdf", launch_sheet.launch_sheet, name="launch_sheet"),
    path("events/<slug:event_slug>/money/pay-outs.pdf", pay_outs.pay_out_list, name="pay_out_list"),
    path("events/<slug:event_slug>/briefing.pdf", briefing.briefing, name="briefing"),
    path("events/<slug:event_slug>/teams/files/<str:form>", teams.teams_file, name="teams_file"),
    path("events/<slug:event_slug>/teams/sign-in/<str:form>", teams.sign_in_file, name="sign_in_file"),
    path("events/<slug:event_slug>/teams/template.xlsx", teams.template_file, name="team_template"),
    path("events/<slug:event_slug>/rules/hand-out.pdf", rule_sheets.rules_pdf, name="rules_pdf"),
    path("clubs/<slug:club_slug>/sheets/<slug:sheet_slug>/hand-out.pdf", rule_sheets.sheet_pdf, name="sheet_pdf"),
    path("events/<slug:event_slug>/files/<str:form>", files.event_file, name="event_file"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/files/<str:form>", files.season_file, name="season_file"),
]
