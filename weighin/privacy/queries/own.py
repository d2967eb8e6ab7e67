"""What is kept about one person, as plain values for a file: somebody who signs in, or an angler by name."""

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from django.apps import apps
from django.db.models import CharField, Model
from django.utils import timezone

from weighin.accounts.models import SecurityEntry, User
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.privacy.queries.mentions import mentions
from weighin.roster.models import Angler, Contact, Entry
from weighin.rules.look_alikes import folded_name

# Fields that hold the user name of whoever wrote a row
WRITERS = ("recorded_by", "published_by", "made_by", "withdrawn_by", "told_by", "decided_by", "by")
MOMENTS = ("received_at", "published_at", "said_at", "made_at", "at", "on")


def own_data(person: User) -> dict[str, Any]:
    """Everything that the site keeps about somebody who signs in, except the password, of which it has a digest alone."""
    return {
        "written": _plain(timezone.now()),
        "account": {
            "user_name": person.username,
            "name": person.get_full_name(),
            "e_mail": person.email,
            "made": _plain(person.date_joined),
            "signed_in_last": _plain(person.last_login),
        },
        "kept_with_the_account": list(_hanging_on(person)),
        "memberships": [
            {"club": membership.club.name, "role": membership.role}
            for membership in person.memberships.select_related("club")
        ],
        "security_log": [
            {
                "at": _plain(line.at),
                "kind": line.kind,
                "address": line.address,
                "times": line.times,
                "about": line.about,
            }
            for line in SecurityEntry.objects.filter(person_id=person.pk).order_by("id")
        ],
        "acts_in_the_history": [
            {"at": _plain(line.at), "act": line.act, "said": line.sentence}
            for line in HistoryEntry.objects.filter(actor=person.username).order_by("id")
        ],
        "rows_written": list(_written_by(person.username)),
    }


def kept_about(club: Club, name: str) -> dict[str, Any]:
    """Everything that a club keeps about an angler of this name, or that says it."""
    anglers = Angler.objects.filter(entry__event__season__club=club, erased_on=None).select_related(
        "entry__event__season", "entry__contact"
    )
    return {
        "written": _plain(timezone.now()),
        "club": club.name,
        "name": " ".join(name.split()),
        "fished": [
            {
                "event": angler.entry.event.name,
                "season": angler.entry.event.season.name,
                "date": angler.entry.event.date.isoformat(),
                "boat": angler.entry.boat,
                "team": angler.entry.name,
                "youth_team": angler.entry.youth,
                "reached_by": _reached_by(angler.entry),
            }
            for angler in anglers.order_by("entry__event__date", "pk")
            if folded_name(angler.name) == folded_name(name)
        ],
        "said_in": [
            {
                "kept_in": one.kept_in,
                "field": one.field,
                "event": one.event,
                "text": one.text,
                "can_be_erased": one.erased,
            }
            for one in mentions(club, name)
        ],
    }


def _reached_by(entry: Entry) -> dict[str, str] | None:
    contact: Contact | None = getattr(entry, "contact", None)
    return {name: getattr(contact, name) for name in ("phone", "emergency", "email")} if contact else None


def _written_by(username: str) -> Iterator[dict[str, Any]]:
    """Each row that names the user as its writer: what it is, when and where; its content is in the club's files."""
    for model in sorted(_ours(), key=lambda one: one._meta.label):
        fields = {field.name: field for field in model._meta.concrete_fields}
        writers = [name for name in WRITERS if isinstance(fields.get(name), CharField) and not fields[name].choices]
        moment = next((name for name in MOMENTS if name in fields), None)
        for writer in writers if model is not HistoryEntry else ():
            rows = model._default_manager.filter(**{writer: username}).order_by("pk")
            for key, at in rows.values_list("pk", moment or "pk"):
                yield {
                    "what": str(model._meta.verbose_name),
                    "id": str(key),
                    "as": writer.replace("_", " "),
                    "at": _plain(at) if moment else None,
                }


def _hanging_on(person: User) -> Iterator[dict[str, Any]]:
    """Rows that hang on the account, such as sessions: what they are and when they were made, without any secret."""
    for relation in person._meta.related_objects:
        model = relation.related_model
        if not model.__module__.startswith("weighin.") or relation.get_accessor_name() == "memberships":
            continue
        moments = [field.name for field in model._meta.concrete_fields if field.get_internal_type() == "DateTimeField"]
        for row in model._default_manager.filter(**{relation.field.name: person}).values(*moments, "pk"):
            row.pop("pk")
            yield {"what": str(model._meta.verbose_name), **{name: _plain(value) for name, value in row.items()}}


def _ours() -> Iterator[type[Model]]:
    return (model for model in apps.get_models() if model.__module__.startswith("weighin."))


def _plain(value: Any) -> Any:
    return value.isoformat() if isinstance(value, datetime) else value
