"""What is asked of every page: axe-core, room enough, a name, a language, and nothing in the console."""

from collections.abc import Iterator

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

WIDTHS = {"phone": (390, 844), "tablet": (820, 1180), "desktop": (1280, 900)}
AXE = "axe.run(document, {resultTypes: ['violations']})"
# Contrast takes nine tenths of the time. It is looked for everywhere once; then, at the other width and in the dark, in one
# text of each kind: its colours and weight, and the grounds it stands on.
NO_CONTRAST = "axe.run(document, {resultTypes: ['violations'], rules: {'color-contrast': {enabled: false}}})"
COLOURS = """() => {
  const known = new Map(), kinds = new Map();
  const ground = one => {
    if (!one) return '';
    if (!known.has(one)) {
      const style = getComputedStyle(one);
      known.set(one, [style.color, style.backgroundColor, style.backgroundImage, style.opacity, ground(one.parentElement)].join());
    }
    return known.get(one);
  };
  for (const one of document.body.querySelectorAll('*')) {
    const says = one.matches('input, select, textarea') || [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim());
    if (!says || !one.checkVisibility({visibilityProperty: true})) continue;
    const style = getComputedStyle(one), kind = [one.localName, style.fontSize, style.fontWeight, ground(one)].join();
    if (!kinds.has(kind)) kinds.set(kind, one);
  }
  return axe.run({include: [...kinds.values()]}, {resultTypes: ['violations'], runOnly: ['color-contrast', 'link-in-text-block']});
}"""
VIOLATIONS = (
    "document.addEventListener('securitypolicyviolation', e => console.error('policy: ' + e.violatedDirective))"
)
UNFOLD = "document.querySelectorAll('details').forEach(fold => { fold.open = true })"
SIDEWAYS = """() => {
  const root = document.documentElement;
  if (root.scrollWidth <= root.clientWidth) return [];
  const out = [...document.querySelectorAll('body *')].filter(
    one => one.getBoundingClientRect().right > root.clientWidth + 1 && one.children.length === 0);
  return [root.scrollWidth + ' px wide', ...out.slice(0, 4).map(one => one.outerHTML.slice(0, 120))];
}"""
FRAME = """() => ({
  headings: [...document.querySelectorAll('h1')].filter(one => one.textContent.trim()).length,
  title: document.title.split(' · ')[0].trim(), lang: document.documentElement.lang,
})"""


def wide(page: Page, name: str) -> None:
    width, height = WIDTHS[name]
    page.set_viewport_size({"width": width, "height": height})


def axe_faults(page: Page, *runs: str) -> list[str]:
    """What axe-core finds on the page as it stands, every fold open: with all of its rules, or with the runs named."""
    page.evaluate(UNFOLD)
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE_SCRIPT)
    return [
        f"{rule['id']}: {rule['help']}: {node['html'][:160]} {node['failureSummary'][-200:]}"
        for run in runs or (AXE,)
        for rule in page.evaluate(run)["violations"]
        for node in rule["nodes"][:3]
    ]


def axe_faults_everywhere(page: Page) -> Iterator[str]:
    """The same at the width of a phone and of a desk, in the light and in the dark."""
    for scheme, width, *runs in (
        ("light", "phone", AXE),
        ("light", "desktop", NO_CONTRAST, COLOURS),
        ("dark", "desktop", COLOURS),
        ("dark", "phone", COLOURS),
    ):
        wide(page, width)
        page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        yield from (f"{width}, {scheme}: {fault}" for fault in axe_faults(page, *runs))
    page.emulate_media(color_scheme="light", reduced_motion="reduce")


def frame_faults(page: Page) -> list[str]:
    """One first heading, a title of its own, and a language."""
    frame = page.evaluate(FRAME)
    wanted = {"one h1": frame["headings"] == 1, "a title": bool(frame["title"]), "a lang": bool(frame["lang"])}
    return [f"wants {what}: {frame}" for what, there in wanted.items() if not there]


def room_faults(page: Page) -> Iterator[str]:
    """Nothing runs off the side at 320 CSS pixels (WCAG 2.2, 1.4.10) or with text twice as large (1.4.4)."""
    page.evaluate(UNFOLD)
    for said, width, size in (("320 px", 320, ""), ("200 % text", 1280, "200%"), ("200 % text, phone", 390, "200%")):
        page.set_viewport_size({"width": width, "height": 800})
        page.evaluate("size => { document.documentElement.style.fontSize = size }", size)
        for one in page.evaluate(SIDEWAYS):
            yield f"{said}: {one}"
    page.evaluate("document.documentElement.style.fontSize = ''")


class Console:
    """Errors a page wrote, script that failed, and what the content policy held back."""

    def __init__(self, page: Page) -> None:
        self.said: list[str] = []
        page.add_init_script(VIOLATIONS)
        page.on("console", lambda one: self.said.append(one.text) if one.type == "error" else None)
        page.on("pageerror", lambda error: self.said.append(str(error)))

    def taken(self) -> list[str]:
        """What was written since the last time; the answer to a refused form is no fault."""
        said, self.said = self.said, []
        return [one for one in said if "Failed to load resource: the server responded with a status of" not in one]
