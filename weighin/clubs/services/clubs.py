"""Make and change clubs, their seasons and waters."""

import secrets
from collections.abc import Iterable

from django.conf import settings
from django.utils.text import slugify

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.accounts.queries.people import nobody_yet
from weighin.accounts.services.people import make_person
from weighin.audit.database.turns import turn
from weighin.audit.services import log_history, writing
from weighin.clubs.domain import dependents
from weighin.clubs.domain.faults import (
    CLUB_LOOKS_LIKE,
    CLUB_TAKEN,
    CLUB_TAKEN_ASK,
    CLUB_WITHOUT_NAME,
    CURRENCY_MISSING,
    DIRECTOR_THERE_ALREADY,
    ELEVATION_OUTSIDE,
    NOT_THE_WORD,
    SEASON_TAKEN,
    SEASON_WITHOUT_NAME,
    WATER_TAKEN,
    WATER_WITHOUT_NAME,
)
from weighin.clubs.models import Club, Membership, Season, Water
from weighin.environment import first_word, forget_first_word
from weighin.rules.faults import Fault, Faults, Sentence, Wrong
from weighin.rules.look_alikes import look_of, name_line

RESERVED = frozenset({"new"})
ELEVATIONS_FT = (-1500, 30_000)


def begin(username: str, password: str, name: str, club: Club | str, word: str) -> User:
    """Make the site's first director, of a new club or of one that was imported before and is named by choosing it.

    ``word`` is what the server's machine shows (``environment.first_word``), so that a site belongs to who runs it
    and not to who comes first. Raises Faults for ``word``, ``username``, ``password``, ``name`` and ``club``, and
    when somebody is here already.
    """
    with turn("begin"), writing():
        if not nobody_yet():
            raise Faults([DIRECTOR_THERE_ALREADY.at("")])
        faults = [] if isinstance(club, Club) else _new_club_faults(club, "club")
        if not secrets.compare_digest("-".join(word.casefold().split()).encode(), first_word(settings.DATA).encode()):
            faults.append(NOT_THE_WORD.at("word"))
        try:
            person = make_person(username, password, name)
        except Faults as found:
            raise Faults([*found.faults, *faults]) from None
        _refuse(faults)
        made = club if isinstance(club, Club) else club_named(club, by=person.username)
        Membership.objects.create(user=person, club=made, role=Role.DIRECTOR)
        log_history(
            person.username, "member.added", f"{person} is director of {made}", club_id=made.pk, subject=person.username
        )
    forget_first_word(settings.DATA)
    return person


def make_club(name: str, director: User) -> Club:
    """Make a further club with its first director. Raises Faults for ``name``."""
    with writing():
        _refuse(_new_club_faults(name, "name"))
        club = club_named(name, by=director.username)
        Membership.objects.create(user=director, club=club, role=Role.DIRECTOR)
        by = director.username
        log_history(by, "member.added", f"{director} is director of {club}", club_id=club.pk, subject=by)
    return club


def rename_club(club: Club, name: str, by: str) -> None:
    """Write the club's name anew; its address stays. Raises Faults for ``name``."""
    with writing():
        _refuse(_name_faults(name, "name", 120, CLUB_WITHOUT_NAME))
        _refuse(_club_faults(name, "name", CLUB_TAKEN, besides=club))
        before, club.name = club.name, _spaced(name)
        club.save(update_fields=["name"])
        dependents.changed.send(Club, club_id=club.pk)
        log_history(
            by,
            "club.renamed",
            f"{before} is now {club.name}",
            club_id=club.pk,
            details={"before": before, "after": club.name},
        )


def set_figures(club: Club, currency: str, hours: int, degrees: str, language: str, by: str) -> None:
    """Write the club's money, times of day, temperatures and messages another way; blank the language stays.

    Raises Faults for ``currency``.
    """
    with writing():
        _refuse(_name_faults(currency, "currency", 5, CURRENCY_MISSING))
        before = _figures(club)
        club.currency, club.hours, club.degrees = _spaced(currency), hours, degrees
        club.language = language or club.language
        after = _figures(club)
        if before == after:
            return
        club.save(update_fields=["currency", "hours", "degrees", "language"])
        dependents.changed.send(Club, club_id=club.pk)
        log_history(
            by,
            "club.figures",
            f"Figures of {club}: {', '.join(after)}; were {', '.join(before)}",
            club_id=club.pk,
            details={"before": before, "after": after},
        )


def _figures(club: Club) -> list[str]:
    return [club.currency, str(club.get_hours_display()), str(club.get_degrees_display()), club.get_language_display()]


def open_club(club: Club, is_open: bool, by: str) -> bool:
    """Open the club's page and calendar to the public, or close them. Whether that changed anything."""
    with writing():
        held = Club.objects.select_for_update().get(pk=club.pk)
        if held.is_open == is_open:
            return False
        club.is_open = held.is_open = is_open
        held.save(update_fields=["is_open"])
        dependents.changed.send(Club, club_id=club.pk)
        said = f"{held.name} is open to the public" if is_open else f"{held.name} is closed to the public"
        log_history(by, "club.opened" if is_open else "club.closed", said, club_id=club.pk)
        return True


def make_season(club: Club, name: str, by: str, water: str = "") -> Season:
    """Make a season, and with it a water that is named. Raises Faults for ``name``, also when the club has it already,
    and for ``water``."""
    with writing():
        faults = _name_faults(name, "name", 80, SEASON_WITHOUT_NAME)
        if not faults and club.seasons.filter(name__iexact=_spaced(name)).exists():
            faults.append(SEASON_TAKEN.at("name", name=_spaced(name), club=str(club)))
        if water:
            faults += _name_faults(water, "water", 120, WATER_WITHOUT_NAME)
        _refuse(faults)
        season = season_named(club, name, by)
        if water:
            water_named(club, water, by)
        return season


def make_water(club: Club, name: str, elevation_ft: int | None, by: str) -> Water:
    """Make a water. Raises Faults for ``name`` and ``elevation_ft``."""
    with writing():
        _refuse(_water_faults(club, name, elevation_ft))
        water = Water.objects.create(club=club, name=_spaced(name), elevation_ft=elevation_ft)
        log_history(by, "water.made", f"Water {water.name} added", club_id=club.pk, subject=water.name)
    return water


def change_water(water: Water, name: str, elevation_ft: int | None, by: str) -> None:
    """Change a water's name and elevation. Raises Faults for ``name`` and ``elevation_ft``."""
    with writing():
        _refuse(_water_faults(water.club, name, elevation_ft, besides=water))
        before = {"name": water.name, "elevation_ft": water.elevation_ft}
        water.name, water.elevation_ft = _spaced(name), elevation_ft
        water.save()
        dependents.changed.send(Water, club_id=water.club_id, water_id=water.pk)
        after = {"name": water.name, "elevation_ft": water.elevation_ft}
        sentence = f"Water {before['name']} changed"
        log_history(
            by,
            "water.changed",
            sentence,
            club_id=water.club_id,
            subject=water.name,
            details={"before": before, "after": after},
        )


def club_named(name: str, by: str) -> Club:
    """The club of a name, whatever its case and spacing; made when there is none."""
    name = _spaced(name)
    with writing():
        found = Club.objects.filter(name__iexact=name).first()
        if found is None:
            taken = Club.objects.values_list("slug", flat=True)
            found = Club.objects.create(name=name, slug=free_slug(name, "club", 110, {*taken, *RESERVED}))
            log_history(by, "club.made", f"{name} made", club_id=found.pk, subject=name)
    return found


def season_named(club: Club, name: str, by: str) -> Season:
    """The club's season of a name, whatever its case and spacing; made when there is none."""
    name = _spaced(name)
    with writing():
        found = club.seasons.filter(name__iexact=name).first()
        if found is None:
            taken = club.seasons.values_list("slug", flat=True)
            found = Season.objects.create(club=club, name=name, slug=free_slug(name, "season", 70, {*taken, *RESERVED}))
            log_history(by, "season.made", f"Season {name} made", club_id=club.pk, subject=name)
    return found


def water_named(club: Club, name: str, by: str) -> Water:
    """The club's water of a name, whatever its case and spacing; made when there is none."""
    name = _spaced(name)
    with writing():
        found = club.waters.filter(name__iexact=name).first()
        if found is None:
            found = Water.objects.create(club=club, name=name)
            log_history(by, "water.made", f"Water {name} added", club_id=club.pk, subject=name)
    return found


def free_slug(name: str, otherwise: str, most: int, taken: Iterable[str]) -> str:
    """``name`` as it may stand in an address, with -2, -3, ... when that is taken."""
    base = slugify(name)[:most].strip("-") or otherwise
    used, slug, number = set(taken), base, 1
    while slug in used:
        number += 1
        slug = f"{base}-{number}"
    return slug


def _spaced(name: str) -> str:
    return " ".join(name.split())


def _name_faults(name: str, field: str, most: int, blank: Sentence) -> list[Fault]:
    try:
        return [] if name_line(name, most) else [blank.at(field)]
    except Wrong as error:
        return [error.at(field)]


def _new_club_faults(name: str, field: str) -> list[Fault]:
    faults = _name_faults(name, field, 120, CLUB_WITHOUT_NAME)
    return faults or _club_faults(name, field, CLUB_TAKEN_ASK)


def _club_faults(name: str, field: str, taken: Sentence, besides: Club | None = None) -> list[Fault]:
    """The fault of a name that another club has, or that a reader takes for another club's."""
    others = Club.objects.exclude(pk=besides.pk) if besides else Club.objects.all()
    if others.filter(name__iexact=_spaced(name)).exists():
        return [taken.at(field, name=_spaced(name))]
    like = next((club for club in others if look_of(club.name) == look_of(name)), None)
    return [CLUB_LOOKS_LIKE.at(field, name=like.name)] if like else []


def _water_faults(club: Club, name: str, elevation_ft: int | None, besides: Water | None = None) -> list[Fault]:
    faults = _name_faults(name, "name", 120, WATER_WITHOUT_NAME)
    others = club.waters.exclude(pk=besides.pk) if besides else club.waters.all()
    if not faults and others.filter(name__iexact=_spaced(name)).exists():
        faults.append(WATER_TAKEN.at("name", name=_spaced(name), club=str(club)))
    least, most = ELEVATIONS_FT
    if elevation_ft is not None and not least <= elevation_ft <= most:
        faults.append(ELEVATION_OUTSIDE.at("elevation_ft", elevation=elevation_ft, least=least, most=f"{most:,}"))
    return faults


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise Faults(faults)
