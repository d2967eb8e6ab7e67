"""The keys of a rule sheet about the care of fish."""

from weighin.rules.faults import gettext_noop as _
from weighin.rules.sheet.key import Key

FISH_CARE = _("Fish care")

CARE_KEYS: tuple[Key, ...] = (
    Key(
        "care_warm_f",
        FISH_CARE,
        _("Care steps from"),
        "number",
        "75",
        _("Lake temperature in °F from which ice is looked for (Kansas agency rule: 75 °F)."),
    ),
    Key(
        "care_max_cooling_f",
        FISH_CARE,
        _("Largest cooling"),
        "number",
        "7",
        _("Most °F a livewell may be below the lake (Mississippi State summary: 7; other sources 8-10)."),
    ),
    Key(
        "care_min_do",
        FISH_CARE,
        _("Least oxygen"),
        "number",
        "5.0",
        _("Least dissolved oxygen in a livewell, mg/L (common practice: 5)."),
    ),
    Key(
        "care_max_bag_minutes",
        FISH_CARE,
        _("Longest in the bag"),
        "number",
        "10",
        _(
            "Most minutes from bag issued to bag emptied (common practice: 10, with aerated tanks along the line: a closed bag of 15 lb in 2 gal lasts about 3 at rest)."
        ),
    ),
    Key(
        "care_max_held_minutes",
        FISH_CARE,
        _("Longest held"),
        "number",
        "none",
        _("Most minutes from first fish to release; none = not checked."),
        optional=True,
    ),
    Key(
        "care_stop_percent",
        FISH_CARE,
        _("Stop level"),
        "percent",
        "10",
        _(
            "Share of dead fish, in percent, at which the event should stop and think (Kansas called more than 10 % after weigh-in excessive)."
        ),
    ),
    Key(
        "deep_fish_kept_ft",
        FISH_CARE,
        _("Deep fish are kept from"),
        "number",
        "none",
        _(
            "Depth in feet from which fish are kept, not released, where the law allows it: from deep water few live, vented or not "
            "(care from 20 to 25 ft). Told to the boats; nothing is scored by it. none = no such rule."
        ),
        optional=True,
    ),
    Key(
        "measured_lengths_above",
        FISH_CARE,
        _("Measured lengths from"),
        "number",
        "none",
        _(
            "Lake temperature in °F from which fish are measured and released at once instead of being held, decided the evening "
            "before. Told to the boats; nothing is scored by it. none = no such rule."
        ),
        optional=True,
    ),
)
