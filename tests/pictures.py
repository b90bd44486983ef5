"""Takes the pictures by which the pages are looked at, into pictures/ (not kept in the repository).

    python tests/pictures.py [SITE] [OUT]

SITE: a folder with a built site, site/ if left out. OUT: pictures/ if left out. Needs playwright and a Chromium.
readme.png is the picture of the README (kept as .github/page.png). Long pages are cut into columns, left to right. Of
the print, the PDF is kept beside the pictures of its sheets, which need pdftoppm.
"""

import base64
import shutil
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
COLUMN = {390: 2600, 1280: 2400}  # heights of a column at each width, in pixels
GAP = 16


def main() -> None:
    """All pictures."""
    site = Path(sys.argv[1] if len(sys.argv) > 1 else "site").resolve()
    out = Path(sys.argv[2] if len(sys.argv) > 2 else "pictures").resolve()
    out.mkdir(exist_ok=True)
    pages = {"home": site / "index.html"}
    for toy in sorted(site.glob("builds/*/*.html")):
        pages[f"{toy.parent.name}-{'build' if toy.stem == 'index' else toy.stem}"] = toy
    chromium = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if chromium is None:
        sys.exit("No Chromium found: install chromium, or put google-chrome on the path.")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        for name, path in pages.items():
            for width in COLUMN:
                for scheme in ("light", "dark"):
                    picture(browser, path, width, scheme, out / f"{name}-{width}-{scheme}.png")
            sheets(browser, path, out / f"{name}-print.pdf")
        shaker = site / "builds" / "night-ferry" / "bow-shaker.html"
        for scheme in ("light", "dark"):
            in_use(browser, shaker, scheme, out / f"in-use-390-{scheme}.png")
        front(browser, shaker, out / "readme.png")
        browser.close()


def picture(browser: Browser, path: Path, width: int, scheme: str, to: Path) -> None:
    """One page at one width in one scheme, in columns, without what floats."""
    page = opened(browser, path, width, scheme)
    page.add_style_tag(content=".gg-next { display: none !important } .md-header { position: static !important }")
    whole = page.screenshot(full_page=True)
    height = page.evaluate("document.documentElement.scrollHeight")
    page.context.close()
    columns(browser, whole, width, height, to)


def in_use(browser: Browser, path: Path, scheme: str, to: Path) -> None:
    """A phone in the middle of the dead checks: ticks, a reading as expected and one outside, the bar below."""
    page = opened(browser, path, 390, scheme)
    hold = page.locator("[data-hold='dead-checks']")
    before = page.locator(":is([data-list='mount'], [data-list='wire'], [data-list='settings']) input[data-step]")
    for box in [*before.all(), *hold.locator("input[data-step]").all()[:3]]:
        box.check()
    fields = hold.locator("input[data-reading]").all()
    for field, written in zip(fields, ("0,1", "25", "1,4"), strict=False):
        field.fill(written)
        field.press("Tab")
    hold.locator(".step__reading").nth(1).evaluate("one => one.scrollIntoView({ block: 'center' })")
    page.screenshot(path=str(to))
    page.context.close()


def front(browser: Browser, path: Path, to: Path) -> None:
    """The picture of the README: the head of the page on a desk, its circuit on a phone."""
    desk = opened(browser, path, 1280, "light")
    phone = opened(browser, path, 390, "dark")
    for page in (desk, phone):
        page.add_style_tag(content=".gg-next { display: none !important }")
    phone.locator("#circuit").evaluate("one => one.scrollIntoView()")
    shots = [base64.b64encode(page.screenshot()).decode() for page in (desk, phone)]
    desk.context.close()
    phone.context.close()
    page = browser.new_page(viewport={"width": 1280 + GAP + 390, "height": 900})
    images = "".join(f'<img style="margin-right:{GAP}px" src="data:image/png;base64,{shot}">' for shot in shots)
    page.set_content(f'<body style="margin:0;background:#888"><div style="width:2000px">{images}</div>')
    page.screenshot(path=str(to))
    page.close()


def opened(browser: Browser, path: Path, width: int, scheme: str) -> Page:
    """The page in a window of this width."""
    page = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme).new_page()  # type: ignore[arg-type]
    page.goto(path.as_uri())
    page.wait_for_function("document.fonts.status === 'loaded'")
    return page


def columns(browser: Browser, whole: bytes, width: int, height: int, to: Path) -> None:
    """A long picture cut into columns that stand side by side."""
    tall = COLUMN[width]
    count = -(-height // tall)
    data = base64.b64encode(whole).decode()
    parts = "".join(
        f'<div style="float:left;width:{width}px;height:{min(tall, height)}px;margin-right:{GAP}px;'
        f'background:url(data:image/png;base64,{data}) 0 {-tall * number}px no-repeat"></div>'
        for number in range(count)
    )
    across = count * (width + GAP) - GAP
    page = browser.new_page(viewport={"width": across, "height": min(tall, height)})
    page.set_content(f'<body style="margin:0;background:#888"><div style="width:{across + GAP}px">{parts}</div>')
    page.screenshot(path=str(to))
    page.close()


def sheets(browser: Browser, path: Path, to: Path) -> None:
    """The page as it prints, as PDF and as pictures of its sheets."""
    page = opened(browser, path, 1280, "light")
    page.pdf(path=str(to), format="A4", tagged=True)
    page.context.close()
    if shutil.which("pdftoppm"):
        subprocess.run(["pdftoppm", "-r", "80", "-png", str(to), str(to.with_suffix(""))], check=True)


if __name__ == "__main__":
    main()
