"""The season book, for members."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.book.files.book import TYPES, book_file
from weighin.book.queries.book import season_book as book_of
from weighin.clubs.access import allow_in_club
from weighin.clubs.models import Club
from weighin.reports.views.files import download
from weighin.seasons.views.standings import season_at


@require_safe
@allow_in_club(Can.VIEW_SEASON)
def season_book(request: HttpRequest, club: Club, season_slug: str, form: str) -> HttpResponse:
    """The book as one PDF, or with the files of its chapters as a ZIP."""
    season = season_at(club, season_slug)
    name = f"{club.slug}-{season.slug}-season-book.{form}"
    return download(book_file(book_of(season), form), TYPES[form], name)
