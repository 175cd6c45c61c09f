"""The languages there are catalogues for: what a text is called in each, and which one a person reads."""

from functools import lru_cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from math import isfinite
from pathlib import Path

from babel import Locale, UnknownLocaleError, negotiate_locale
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.numbers import format_decimal

from curriculum.faults import N_

LOCALES = Path(__file__).with_name("locales")
DOMAIN = "throughline"
MOST_ACCEPTED = 20
COMMA = N_(", ")
MINUS = "-"


class Language:
    """One language as one locale writes it; call it with a text, and with what fills the text's places."""

    def __init__(self, locale: str = "en_GB", catalogue: NullTranslations | None = None) -> None:
        self.locale = locale
        self.catalogue = catalogue or NullTranslations()

    def __call__(self, text: str, /, **values: object) -> str:
        """The text in this language; its places stay open if nothing is given for them."""
        found = self.catalogue.gettext(text) if text else ""
        return found.format(**values) if values else found

    def printed(self) -> dict[str, str | bool | None]:
        """What a printed page must know of the language: `lang`, `region` and whether it runs from right to left."""
        name, _, region = self.locale.partition("_")
        return {"lang": name, "region": region or None, "rtl": Locale.parse(self.locale).text_direction == "rtl"}

    def ngettext(self, one: str, many: str, number: int, /, **values: object) -> str:
        """The form that goes with a number, which fills the place `number`."""
        return self.catalogue.ngettext(one, many, number).format(number=self.figure(number), **values)

    def figure(self, number: int | float) -> str:
        """A number as the locale writes it; a float keeps what digits it has."""
        return format_decimal(number, locale=self.locale, decimal_quantization=False)

    def decimal(self, number: float, digits: int, sign: bool = False) -> str:
        """A number with so many digits after the decimal mark, as the locale writes it; `sign` shows a plus as well."""
        if not isfinite(number):
            return "–"
        kept = f"0.{'0' * digits}" if digits else "0"
        text = format_decimal(abs(number), format=f"#,##{kept}", locale=self.locale)
        below = round(number, digits) < 0
        return f"{MINUS if below else '+'}{text}" if sign or below else text

    def listed(self, texts: list[str] | tuple[str, ...]) -> str:
        """Texts in a row, as the language parts them."""
        return self(COMMA).join(texts)


ENGLISH = Language()


class Languages:
    """The catalogues of a folder, read once; English is what the sources are written in."""

    def __init__(self, folder: Path = LOCALES) -> None:
        self.folder = folder
        self.present = sorted(path.parent.parent.name for path in folder.glob(f"*/LC_MESSAGES/{DOMAIN}.po"))
        self.of = lru_cache(maxsize=64)(self._of)
        self.chosen = lru_cache(maxsize=256)(self._chosen)
        self._catalogue = lru_cache(maxsize=64)(self._read)

    def _of(self, locale: str) -> Language:
        """The language of a locale such as `en_GB`; English where there is no catalogue for it."""
        try:
            known = str(Locale.parse(locale.replace("-", "_")))
        except (ValueError, TypeError, UnknownLocaleError):
            return Language()
        found = negotiate_locale([known], self.present)
        return Language(known, self._catalogue(found)) if found else Language()

    def _chosen(self, accepted: str, locale: str) -> Language:
        """What a person reads: of the languages their browser asks for the first there is, else the school's.

        `accepted` is the header Accept-Language (RFC 9110, 12.5.4). Within one language the school's locale decides
        how days and numbers are written.
        """
        school = self.of(locale)
        found = negotiate_locale(accepted_locales(accepted), self.present)
        if found is None or found.partition("_")[0] == school.locale.partition("_")[0]:
            return school
        return self.of(found)

    def _read(self, name: str) -> NullTranslations:
        with (self.folder / name / "LC_MESSAGES" / f"{DOMAIN}.po").open("rb") as file:
            read = read_po(file, locale=name, domain=DOMAIN, abort_invalid=True)
        compiled = BytesIO()
        write_mo(compiled, read)
        compiled.seek(0)
        return GNUTranslations(compiled)


@lru_cache(maxsize=1)
def own_languages() -> Languages:
    """Those of this installation, read once a process."""
    return Languages()


def accepted_locales(header: str) -> list[str]:
    """Locales of an Accept-Language header, the most wanted first; what can't be read is left out."""
    wanted = []
    for place, part in enumerate(header.split(",")[:MOST_ACCEPTED]):
        name, _, weight = part.strip().partition(";")
        try:
            share = float(weight.strip().removeprefix("q=")) if weight else 1.0
        except ValueError:
            continue
        if name.replace("-", "").isalnum() and 0 < share <= 1:
            wanted.append((-share, place, name.replace("-", "_")))
    return [name for _, _, name in sorted(wanted)]
