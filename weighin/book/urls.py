from django.urls import path

from weighin.book import views

app_name = "book"
SEASON = "clubs/<slug:club_slug>/seasons/<slug:season_slug>"
urlpatterns = [
    path(f"{SEASON}/season-book.pdf", views.season_book, {"form": "pdf"}, name="pdf"),
    path(f"{SEASON}/season-book.zip", views.season_book, {"form": "zip"}, name="zip"),
]
