from django.urls import path

from weighin.tanks.views import bags, releases, tanks

app_name = "tanks"
CARE = "events/<slug:event_slug>/care"
BAGS = f"{CARE}/account"
RELEASES = f"{CARE}/releases"
TANKS = f"{CARE}/tanks"
urlpatterns = [
    path(f"{TANKS}/", tanks.tanks, name="tanks"),
    path(f"{TANKS}/new/", tanks.reading_new, name="tanks_new"),
    path(f"{TANKS}/readings/<int:reading_pk>/", tanks.reading, name="tank_reading"),
    path(f"{TANKS}/treatments/new/", tanks.treatment_new, name="treatments_new"),
    path(f"{TANKS}/treatments/<uuid:treatment_pk>/", tanks.treatment, name="treatment"),
    path(f"{BAGS}/", bags.account, name="account"),
    path(f"{BAGS}/<int:day>/let-go/", bags.bags_let_go, name="bags_let_go"),
    path(f"{BAGS}/<int:day>/<int:boat>/handed/", bags.bag_handed, name="bag_handed"),
    path(f"{BAGS}/bags/<int:bag_pk>/back/", bags.bag_taken_back, name="bag_taken_back"),
    path(f"{RELEASES}/new/", releases.release_new, name="releases_new"),
    path(f"{RELEASES}/<uuid:release_pk>/", releases.release, name="release"),
    path(f"{RELEASES}/walks/new/", releases.walk_new, name="walks_new"),
    path(f"{RELEASES}/walks/<uuid:walk_pk>/", releases.walk, name="walk"),
    path(f"{RELEASES}/kept/new/", releases.kept_new, name="kept_new"),
    path(f"{RELEASES}/kept/<uuid:kept_pk>/", releases.kept_fish, name="kept_fish"),
    path(f"{CARE}/crappie/", releases.crappie, name="crappie"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/releases/", releases.release_sites, name="release_sites"),
]
