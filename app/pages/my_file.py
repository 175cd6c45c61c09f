"""What the school holds about whoever asks: in words, and all of it as one file to take away."""

import json

from fastapi.responses import Response

from app.permissions import TRAINEE
from app.web.door import Pages
from app.web.visit import Here
from app.wording.held import GROUPS, NOTE

pages = Pages()


@pages.get("/my-file", may="read own file")
def own(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        found = work.held.about(visit.person)
    groups = [
        (visit.say(words), visit.language.figure(sum(len(found.get(name, ())) for name in tables)))
        for words, tables in GROUPS
        if any(name in found for name in tables)
    ]
    return visit.show("my_file/my_file.html", groups=groups, trains=TRAINEE in visit.roles)


@pages.get("/my-file/everything.json", may="read own file")
def everything(visit: Here) -> Response:
    """Every row, as it is kept."""
    with visit.store.reading(visit.school_id) as work:
        found = work.held.about(visit.person)
    whole = {"school": visit.school.name, "made_at": visit.now.isoformat(), "note": visit.say(NOTE), "held": found}
    headers = {"content-disposition": 'attachment; filename="everything.json"'}
    return Response(json.dumps(whole, ensure_ascii=False, indent=1), media_type="application/json", headers=headers)
