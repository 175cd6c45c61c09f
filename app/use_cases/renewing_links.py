"""A host teacher whose private link has ended has a new one mailed, to nobody but the registered address."""

import secrets
from datetime import timedelta

from app.storage.mail import OutgoingMail
from app.storage.work import Store
from app.use_cases.asker import Asker
from app.use_cases.hours import new_link
from app.use_cases.keeping_hosts import Post
from app.wording.mails import link_again

APART = timedelta(hours=1)


def renew_link(store: Store, asker: Asker, token_hash: str, post: Post) -> bool:
    """Mail a new link to the host an old one belonged to, at most one in an hour; whether it did is for nobody to see."""
    with store.reading(asker.school.id) as work:
        if work.hosts.of_any_link(token_hash) is None:
            return False
    with store.writing(asker.school.id) as work:
        host = work.hosts.of_any_link(token_hash)
        if work.hosts.link_made_since(host.id, asker.now - APART):
            return False
        link = new_link(work, asker, host.id, post.link_days, post.address)
        subject, words = link_again(asker.school.name, link, post.link_days, asker.language)
        work.mail.add(OutgoingMail(secrets.token_hex(16), host.email, host.name, subject, words, asker.now))
        work.record.append("host-link-renewed", host.id, f"host:{host.id}", asker.now, {"host": host.id})
        work.commit()
    return True
