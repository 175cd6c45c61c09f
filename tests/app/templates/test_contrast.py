"""Contrast as WCAG 2.2 defines it (relative luminance, contrast ratio; success criteria 1.4.3 and 1.4.11)."""

import re

import pytest

from .page import APP

BLOCKS = re.findall(r":root \{(.*?)\}", (APP / "static/paper.css").read_text(), flags=re.DOTALL)
SCHEMES = [dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", block)) for block in BLOCKS]


def luminance(colour: str) -> float:
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_black_on_white_is_21_as_the_standard_says():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


def test_both_schemes_name_the_same_colours():
    assert len(SCHEMES) == 2
    assert SCHEMES[0].keys() == SCHEMES[1].keys()


@pytest.mark.parametrize("scheme", SCHEMES, ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "raised"])
@pytest.mark.parametrize("ink", ["ink", "soft", "accent", "fault"])
def test_text_stands_out_from_its_ground(scheme: dict[str, str], ground: str, ink: str):
    assert contrast(scheme[ink], scheme[ground]) >= 4.5


@pytest.mark.parametrize("scheme", SCHEMES, ids=["light", "dark"])
def test_words_on_the_accent_and_edges_of_fields_stand_out(scheme: dict[str, str]):
    assert contrast(scheme["on-accent"], scheme["accent"]) >= 4.5
    assert min(contrast(scheme["edge"], scheme[ground]) for ground in ("paper", "raised")) >= 3
