"""A certificate as a PDF; typesetting is loaded when one is asked for."""

import importlib
import json

from fastapi.responses import Response

from app.files.qr import qr_picture
from app.queries.certificates import Life
from app.web.visit import Visit
from app.wording.certificates import LASTS, LASTS_ALWAYS, NO_LICENCE
from app.wording.dates import day_text


def certificate_pdf(visit: Visit, life: Life) -> Response:
    """What the credential says that was signed last, with the way to check it."""
    made, language = json.loads(life.signed.plain), visit.language
    subject, issued = made["credentialSubject"], life.steps[0].made_at
    address = made["id"].removesuffix("/credential.json")
    printing = importlib.import_module("app.files.certificate_pdf")
    body = printing.certificate_pdf(
        printing.PrintedCertificate(
            title=made["name"],
            school=made["issuer"]["name"],
            holder=subject["identifier"][0]["identityHash"],
            statement=subject["achievement"]["description"],
            issued=day_text(issued.date(), language.locale),
            lasts=language(LASTS, day=day_text(life.until.date(), language.locale))
            if life.until
            else language(LASTS_ALWAYS),
            number=life.written,
            address=address,
            caution=language(NO_LICENCE),
        ),
        qr_picture(address),
        issued,
        language,
    )
    headers = {"content-disposition": f'inline; filename="certificate-{life.certificate.number}.pdf"'}
    return Response(body, media_type="application/pdf", headers=headers)
