"""Pages that still show texts which are not looked up, by app. The list only gets shorter."""

BY_APP = {
    "care": "note notes releases",
    "holding": "check checks_new holding holding_record holding_records_new pen_change pens_new",
    "operations": "club_history next_event",
    "tanks": "kept_new release releases_new tanks walk walks_new",
}
OPEN = frozenset(f"{app}:{page}" for app, pages in BY_APP.items() for page in pages.split())
