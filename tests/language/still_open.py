"""Pages that still show texts which are not looked up, by app. The list only gets shorter."""

BY_APP = {
    "advice": "season",
    "agency": "event_catch event_catch_file season_catch season_catch_file",
    "care": "care_record care_team note notes ramp releases",
    "holding": "check checks_new holding holding_record holding_records_new pen pen_change pens_new",
    "operations": "close club_history day import next_event publish",
    "planning": "briefing event_planner planner",
    "public": "briefing briefing_file",
    "reports": "boat_cards briefing event_file pad_pdf scale_checks season_file slip_pdf slips_pdf",
    "tanks": "account kept_new release release_sites releases_new tank_reading tanks tanks_new treatments_new walk walks_new",
}
OPEN = frozenset(f"{app}:{page}" for app, pages in BY_APP.items() for page in pages.split())
