"""Publish, post, close and hold back; protests and their rulings."""

from weighin.standings.services.publishing import (
    lift_embargo,
    overruled_said,
    post_result,
    publish_result,
    set_closed,
    set_public,
    start_embargo,
)

__all__ = (
    "lift_embargo",
    "overruled_said",
    "post_result",
    "publish_result",
    "set_closed",
    "set_public",
    "start_embargo",
)
