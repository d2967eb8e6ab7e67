"""Whether a later version of the site has been at the database: then this one must not write into it."""

from collections.abc import Collection

from django.db.migrations.loader import MigrationLoader

from weighin.safekeeping.domain.earlier_layout import Migration


def later_changes(loader: MigrationLoader, applied: Collection[Migration] | None = None) -> list[str]:
    """Changes of the database that this version does not know, as ``slips.0009_name``; ``applied`` are else the loader's."""
    found = loader.applied_migrations if applied is None else applied
    return sorted(
        f"{app}.{name}" for app, name in found if app in loader.migrated_apps and (app, name) not in loader.graph.nodes
    )
