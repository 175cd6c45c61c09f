import re
from types import SimpleNamespace

import pytest

from .page import APP, environment, fault, visit

ERROR = SimpleNamespace(
    heading="Not here",
    sentence="It moved.",
    what_next="Go back.",
    links=[("Today", "/today")],
)
EVERY_TEMPLATE = sorted(str(path.relative_to(APP / "templates")) for path in (APP / "templates").rglob("*.html"))
OURS = [
    APP / "templates/layout.html",
    *sorted((APP / "templates/parts").glob("*.html")),
]


def shown(template: str, **values: object) -> str:
    return environment().get_template(template).render(**values)


def sign_in(**changes: object) -> str:
    usual = {"visit": visit(person=None, places=[]), "email": "", "faults": []}
    return shown("sign_in/sign_in.html", **(usual | changes))


def test_sign_in_keeps_the_address_but_never_the_password():
    page = sign_in(
        email="ida@halden.example",
        faults=[fault("password", "They do not belong together")],
    )
    assert 'value="ida@halden.example"' in page
    assert re.search(r'type="password"\s+value=""', page)
    assert page.count("They do not belong together") == 2


def test_a_stranger_is_not_offered_to_sign_out():
    assert "Sign out" not in sign_in()


def test_the_place_one_is_in_is_marked():
    assert '<a href="/today" aria-current="page">Today</a>' in shown("errors/error.html", visit=visit(), error=ERROR)


def test_a_notice_is_read_out_and_escaped():
    page = shown("errors/error.html", visit=visit(notice="<i>Sent"), error=ERROR)
    assert 'role="status">&lt;i&gt;Sent' in page


def test_the_language_is_written_the_way_html_asks():
    """HTML takes a BCP 47 tag, with a hyphen."""
    assert '<html lang="pt-BR">' in shown("errors/error.html", visit=visit(locale="pt_BR"), error=ERROR)


def test_a_page_has_one_main_heading():
    assert sign_in().count("<h1>") == 1


def test_what_the_layout_links_to_is_there():
    linked = re.findall(r'(?:href|src)="/static/([^"]+)"', sign_in())
    assert len(linked) == 8
    assert [name for name in linked if not (APP / "static" / name).is_file()] == []


@pytest.mark.parametrize("name", EVERY_TEMPLATE)
def test_no_template_holds_a_style_or_a_script_of_its_own(name: str):
    source = (APP / "templates" / name).read_text()
    assert not re.search(r'\sstyle\s*=|<style|\son[a-z]+\s*="|<script(?![^>]*\ssrc=)|javascript:', source)


@pytest.mark.parametrize("source", OURS, ids=lambda path: path.name)
def test_every_shared_part_says_what_it_asks_for(source):
    assert source.read_text().startswith("{#-")
