import pytest

from .page import fault, part, visit

FAULTS = [
    fault("length", "“9o” is not a number of minutes"),
    fault("", "The window has ended"),
]
PAIRS = [("o", "Observed"), ("p", "Practised")]


def test_what_was_typed_is_kept_and_escaped():
    assert 'value="&lt;b&gt; &#34;x&#34;"' in part("forms", "field", "host", "Host", '<b> "x"')


def test_nothing_typed_is_an_empty_field():
    assert 'value=""' in part("forms", "field", "host", "Host", None)


def test_a_faulty_field_points_to_its_own_fault_only():
    drawn = part(
        "forms",
        "minutes",
        "length",
        "Length",
        "9o",
        [*FAULTS, fault("day", "No such day")],
    )
    assert 'aria-invalid="true"' in drawn
    assert "fault-length" in drawn
    assert "No such day" not in drawn


def test_a_field_in_order_is_not_called_invalid():
    assert "aria-invalid" not in part("forms", "field", "host", "Host", "Petra Lund", FAULTS)


def test_the_summary_lists_every_fault_and_links_those_with_a_field():
    drawn = part("forms", "fault_summary", FAULTS)
    assert "2 things to put right" in drawn
    assert 'href="#f-length"' in drawn
    assert "<li>The window has ended</li>" in drawn


def test_no_faults_no_summary():
    assert part("forms", "fault_summary", []).strip() == ""


@pytest.mark.parametrize("macro", ["field", "minutes", "time", "date", "textarea"])
def test_every_field_has_a_label_and_the_place_a_summary_links_to(macro: str):
    drawn = part("forms", macro, "length", "Length", "9", FAULTS)
    assert 'for="f-length"' in drawn
    assert 'id="f-length"' in drawn


def test_a_text_keeps_its_first_empty_line():
    assert ">\n\nTwo" in part("forms", "textarea", "notes", "Notes", "\nTwo")


def test_the_option_chosen_stays_chosen_even_when_it_is_a_number():
    assert '<option value="2" selected>Two</option>' in part("forms", "select", "n", "N", [(1, "One"), (2, "Two")], "2")


def test_the_summary_leads_to_the_first_choice_of_a_group():
    drawn = " ".join(part("forms", "radio_group", "length", "Length", PAIRS, "p", FAULTS).split())
    assert 'value="o" id="f-length">' in drawn
    assert 'value="p" id="f-length-2" checked>' in drawn
    assert "fault-length" in drawn


def test_a_ticked_box_stays_ticked():
    assert " checked" in part("forms", "checkbox", "sure", "Sure", True)
    assert " checked" not in part("forms", "checkbox", "sure", "Sure", False)


def test_the_token_goes_with_the_form():
    assert part("forms", "form_token", visit()) == '<input type="hidden" name="form_token" value="a-token">'
