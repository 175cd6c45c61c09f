"""What the shared offline part of the pages needs: its worker at the root, what makes it an app, and who is signed in."""

from fastapi.responses import FileResponse, JSONResponse, Response

from app.permissions import ANYONE
from app.web.door import Pages
from app.web.pages import APP
from app.web.visit import Here

pages = Pages()
ICONS = (192, 512)
# The ground of paper.css.
PAPER = "#f7f4ec"
WORKER = APP / "static" / "offline-worker.js"


@pages.get("/offline-worker.js", may=ANYONE)
def worker(visit: Here) -> Response:
    """At the root, since a worker serves only pages below its own address."""
    return FileResponse(WORKER, media_type="text/javascript", headers={"cache-control": "no-cache"})


@pages.get("/app.webmanifest", may=ANYONE)
def manifest(visit: Here) -> Response:
    """What a phone needs to put the school among its apps (W3C Web Application Manifest)."""
    icons = [
        {"src": f"/static/icon-{size}.png", "sizes": f"{size}x{size}", "type": "image/png", "purpose": "any maskable"}
        for size in ICONS
    ]
    about = {
        "id": "/",
        "name": visit.school_name,
        "short_name": visit.school_name,
        "lang": visit.locale.replace("_", "-"),
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": PAPER,
        "theme_color": PAPER,
        "icons": icons,
    }
    return JSONResponse(about, media_type="application/manifest+json")


@pages.get("/offline/self", may="work offline")
def who(visit: Here) -> Response:
    """Whose entries may be sent now, and the token that their forms must carry."""
    return JSONResponse({"person": visit.device_key, "form_token": visit.csrf})
