"""What the shared offline part of the pages needs: its worker at the root, and who is signed in on the device."""

from fastapi.responses import FileResponse, JSONResponse, Response

from app.permissions import ANYONE
from app.web.door import Pages
from app.web.pages import APP
from app.web.visit import Here

pages = Pages()
WORKER = APP / "static" / "offline-worker.js"


@pages.get("/offline-worker.js", may=ANYONE)
def worker(visit: Here) -> Response:
    """At the root, since a worker serves only pages below its own address."""
    return FileResponse(WORKER, media_type="text/javascript", headers={"cache-control": "no-cache"})


@pages.get("/offline/self", may="work offline")
def who(visit: Here) -> Response:
    """Whose entries may be sent now, and the token that their forms must carry."""
    return JSONResponse({"person": visit.device_key, "form_token": visit.csrf})
