"""The pages in a real browser: no error, no request, accessible, no sideways scrolling on a telephone, printable.

Wants Chromium on the machine; the accessibility scan wants axe-core too, where npm puts it or where AXE_CORE points. To
run it: ``npm install --no-save axe-core`` in the checkout.
"""

import json
import os
import re
import shutil
import subprocess
from collections.abc import Callable
from datetime import date
from html import escape, unescape
from pathlib import Path

import pytest

from speccheck.document import Mark, Problem
from speccheck.report.brief import brief_page
from speccheck.report.digest import digest_of
from speccheck.report.index_page import index_page
from speccheck.report.letter import letter_page
from speccheck.report.page import html_page
from speccheck.uses.check import Checked, check_file

ROOT = Path(__file__).parents[3]
EXAMPLES = ROOT / "examples"
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--hide-scrollbars", "--virtual-time-budget=60000",
)  # fmt: skip
DARK = "--blink-settings=preferredColorScheme=0"


def _index(checked: Checked) -> str:
    unread = [("lots/bad.yaml", (Problem("'5' has no unit", "a length", "write 5 mm", (), Mark(3, 8)),))]
    return index_page([digest_of(checked, "ask")] * 3, ["a.html", "b.html", "c.html"], unread)


PAGES = {"page": html_page, "letter": letter_page, "brief": brief_page, "index": _index}
DAY = date(2026, 1, 15)

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")


def _axe() -> Path | None:
    places = [os.environ.get("AXE_CORE"), ROOT / "node_modules/axe-core/axe.min.js"]
    return next((Path(place) for place in places if place and Path(place).is_file()), None)


@pytest.fixture(params=["studio/studio.yaml", "studio/studio-mistakes.yaml", "ten-lines.yaml"])
def pages(request: pytest.FixtureRequest) -> dict[str, str]:
    result = check_file(EXAMPLES / request.param, (), DAY)
    return {name: make(result) for name, make in PAGES.items()}


@pytest.fixture
def browse(tmp_path: Path) -> Callable[..., subprocess.CompletedProcess[str]]:
    def run(html: str, *flags: str) -> subprocess.CompletedProcess[str]:
        (tmp_path / "page.html").write_text(html, "utf-8")
        assert CHROMIUM is not None
        profile = tmp_path / f"profile-{len(list(tmp_path.iterdir()))}"
        command = [CHROMIUM, *FLAGS, f"--user-data-dir={profile}", *flags, (tmp_path / "page.html").as_uri()]
        return subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)

    return run


def _scripted(html: str, *scripts: str) -> str:
    """Return the page with scripts of the test's own; the page itself allows none."""
    opened = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", html)
    return opened.replace("</body>", "".join(f"<script>{script}</script>" for script in scripts) + "</body>")


def _told(done: subprocess.CompletedProcess[str]) -> dict[str, object]:
    found = re.search(r'data-told="([^"]*)"', done.stdout)
    assert found, done.stderr[-2000:]
    told = json.loads(unescape(found[1]))
    assert isinstance(told, dict)
    return told


def test_no_error_and_no_request(pages: dict[str, str], browse: Callable[..., object]) -> None:
    """The page forbids itself every request, so the browser would tell of one on the console, as of any error."""

    def console(html: str) -> list[str]:
        done = browse(html, "--dump-dom", "--enable-logging=stderr")
        assert isinstance(done, subprocess.CompletedProcess)
        assert "Skip to the content" in done.stdout, done.stderr[-2000:]
        return [line for line in done.stderr.splitlines() if "CONSOLE" in line]

    for name, html in pages.items():
        assert console(html) == [], name
    for spoilt in (
        '<img src="https://example.invalid/x.png" alt="">',
        "<script>1</script>",
        '<img src="x.png" alt="">',
    ):
        (line,) = console(pages["brief"].replace("</body>", f"{spoilt}</body>"))
        assert "Content Security Policy" in line


@pytest.mark.skipif(_axe() is None, reason="axe-core is not installed: npm install --no-save axe-core")
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_accessibility_scan_finds_nothing(
    pages: dict[str, str], browse: Callable[..., object], scheme: str
) -> None:
    axe = _axe()
    assert axe is not None
    run = (
        'axe.run(document,{runOnly:["wcag2a","wcag2aa","wcag21a","wcag21aa","wcag22aa","best-practice"]}).then(r=>'
        'document.documentElement.setAttribute("data-told",JSON.stringify({passes:r.passes.length,'
        "violations:r.violations.map(v=>[v.id,v.nodes.map(n=>n.html.slice(0,120))])})))"
    )
    for name, html in pages.items():
        flags = ["--dump-dom", *([DARK] if scheme == "dark" else [])]
        done = browse(_scripted(html, axe.read_text("utf-8"), run), *flags)
        assert isinstance(done, subprocess.CompletedProcess)
        told = _told(done)
        assert told["violations"] == [], name
        assert int(str(told["passes"])) > 20


def test_a_month_is_shown_when_it_is_chosen(browse: Callable[..., object]) -> None:
    choose = (
        'const seen=()=>[...document.querySelectorAll("g.when")].map(g=>getComputedStyle(g).display!=="none");'
        'const before=seen();document.querySelectorAll(".months>input")[7].click();const after=seen();'
        'document.documentElement.setAttribute("data-told",JSON.stringify({before,after}))'
    )
    html = html_page(check_file(EXAMPLES / "ten-lines.yaml", (), DAY))
    done = browse(_scripted(html, choose), "--dump-dom")
    assert isinstance(done, subprocess.CompletedProcess)
    told = _told(done)
    assert told["before"] == [
        n == 3 for n in range(13)
    ]  # the winter mean comes first; March holds most water
    assert told["after"] == [n == 7 for n in range(13)]


def test_a_telephone_does_not_scroll_sideways(pages: dict[str, str], browse: Callable[..., object]) -> None:
    measure = (
        'const f=document.querySelector("iframe");f.onload=()=>{const d=f.contentDocument.documentElement;'
        "const s=getComputedStyle(d).fontSize;"
        'const t=[...f.contentDocument.querySelectorAll("svg.drawing text")].map(e=>'
        "parseFloat(getComputedStyle(e).fontSize)*e.ownerSVGElement.getScreenCTM().a);"
        'document.documentElement.setAttribute("data-told",JSON.stringify('
        "{width:d.scrollWidth,seen:f.contentWindow.innerWidth,size:s,texts:t.length,least:Math.min(99,...t)}))};"
        'f.srcdoc=document.querySelector("textarea").value'
    )
    for name, html in pages.items():
        frame = (
            f'<!doctype html><textarea hidden>{escape(html)}</textarea><iframe style="width:360px;height:800px;border:0">'
            f"</iframe><script>{measure}</script>"
        )
        done = browse(frame, "--dump-dom")
        assert isinstance(done, subprocess.CompletedProcess)
        told = _told(done)
        assert told["seen"] == 360
        assert int(str(told["width"])) <= 360, name
        assert told["size"] == "16px"
        # the lettering of the drawings, in pixels of the telephone
        assert float(str(told["least"])) >= 11.0, name
        assert (int(str(told["texts"])) > 50) == (name == "page")


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils are not installed")
def test_print_keeps_everything_with_a_running_header(
    pages: dict[str, str], browse: Callable[..., object], tmp_path: Path
) -> None:
    target = tmp_path / "page.pdf"
    browse(pages["page"], "--no-pdf-header-footer", f"--print-to-pdf={target}")
    text = subprocess.run(
        ["pdftotext", "-layout", str(target), "-"], capture_output=True, text=True, check=True
    ).stdout
    sheets = text.rstrip("\f").split("\f")
    for number, sheet in enumerate(sheets, 1):
        assert "Envelope check" in sheet
        assert f"Page {number} of {len(sheets)}" in sheet
        assert "Nothing here is an approval" in sheet
    assert "How each figure is worked out" in text
    assert "Sources of inputs" in text
    assert (
        "thickness over conductivity" in text or "saturation" in text
    )  # what is folded on a screen is printed
    assert "Skip to the content" not in text


@pytest.mark.parametrize(
    "name",
    [
        "studio/studio.yaml",
        "studio/studio-mistakes.yaml",
        "studio/studio-not-shown.yaml",
        "ten-lines.yaml",
        "ten-lines-mended.yaml",
    ],
)
def test_a_brief_is_one_page_of_paper(name: str, browse: Callable[..., object], tmp_path: Path) -> None:
    target = tmp_path / "brief.pdf"
    browse(
        brief_page(check_file(EXAMPLES / name, (), DAY)), "--no-pdf-header-footer", f"--print-to-pdf={target}"
    )
    assert len(re.findall(rb"/Type\s*/Page\b", target.read_bytes())) == 1
