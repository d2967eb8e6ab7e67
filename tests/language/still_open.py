"""Pages that still show texts which are not looked up, by app. The list only gets shorter."""

BY_APP = {
    "agency": "event_catch_file season_catch_file",
    "care": "note notes ramp releases",
    "holding": "check checks_new holding holding_record holding_records_new pen_change pens_new",
    "operations": "club_history next_event",
    "planning": "event_planner planner",
    "public": "briefing_file",
    "reports": "boat_cards briefing event_file pad_pdf scale_checks season_file slip_pdf slips_pdf",
    "tanks": "kept_new release releases_new tank_reading tanks tanks_new treatments_new walk walks_new",
}
OPEN = frozenset(f"{app}:{page}" for app, pages in BY_APP.items() for page in pages.split())
