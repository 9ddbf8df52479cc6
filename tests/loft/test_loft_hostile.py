"""Other sites and hostile words in a real browser: nothing is read, nothing is written, nothing runs."""

import functools
import threading
from collections.abc import Callable, Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from browsing import Window
from inside import PLANTER, tree_hash
from outside import Outside, loft
from playwright.sync_api import Browser

from gantline.loft.guard import POLICY

HOSTILE = [
    "<img src=x onerror=alert(1)>", "'-alert(1)-'", "</script><script>alert(1)</script>", '"><svg onload=alert(1)>',
    "</title><script>alert(1)</script>", "javascript:alert(1)", "{{constructor.constructor('alert(1)')()}}",
    "<math><mtext><script>alert(1)</script>", "&lt;b&gt; &amp;amp;", "]]><script>alert(1)</script>",
]  # fmt: skip

# What another page of the same machine tries: to read, to write by form and by fetch, to frame, to load as script.
EVIL = """<!DOCTYPE html><title>evil</title><body><script>
const target = new URLSearchParams(location.search).get('target');
window.got = [];
const tried = [];
const note = (name) => (answer) => answer.text().then((text) => window.got.push(`${name} ${answer.status} ${text}`));
for (const mode of ['cors', 'no-cors'])
  for (const path of ['/', '/api/files', '/api/file?name=planter.rig', '/page/loft.js'])
    tried.push(fetch(target + path, { mode, credentials: 'include' }).then(note(mode + path)).catch(() => {}));
const own = { 'content-type': 'application/json', 'x-gantline': '1' };
const put = (method, headers) => fetch(target + '/api/file', { method, headers, body, credentials: 'include' });
const make = (tag, given) => Object.assign(document.createElement(tag), given);
const body = JSON.stringify({ name: 'planter.rig', text: '# gone', base: null });
for (const headers of [{ 'content-type': 'text/plain' }, own])
  for (const method of ['POST', 'PUT'])
    tried.push(put(method, headers).then(note(method)).catch(() => {}));
const form = make('form', { action: target + '/api/file', method: 'post', enctype: 'text/plain', target: 'frame' });
form.append(make('input', { name: body }));
const frame = make('iframe', { name: 'frame', src: target + '/' });
const script = make('script', { src: target + '/page/loft.js', onload: () => window.got.push('script') });
const image = make('img', { src: target + '/shelf/planter', onload: () => window.got.push('image') });
document.body.append(form, frame, script, image);
form.submit();
Promise.all(tried).then(() => setTimeout(() => { document.title = 'done'; }, 500));
</script>"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    (folder / "planter.rig").write_text(PLANTER, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def serving(folder: Path) -> Iterator[Outside]:
    with loft(folder) as outside:
        yield outside


@pytest.fixture(scope="module")
def elsewhere(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """The port of another server on this machine, which serves a page that means harm."""
    folder = tmp_path_factory.mktemp("evil")
    (folder / "evil.html").write_text(EVIL, encoding="utf-8")

    class Silent(SimpleHTTPRequestHandler):
        def log_message(self, *_: object) -> None:
            """Nothing."""

    with ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Silent, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server.server_address[1]
        server.shutdown()


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost"])
def test_a08_a12_a18_a_page_of_another_port_gets_and_changes_nothing(
    chromium: Browser, serving: Outside, elsewhere: int, folder: Path, host: str
) -> None:
    context = chromium.new_context()
    page = context.new_page()
    page.goto(f"{serving.address}/?token={serving.token}")  # the browser has the cookie: it is asked to misuse it
    page.wait_for_selector("html[data-ready]")
    before = tree_hash(folder)
    page.goto(f"http://{host}:{elsewhere}/evil.html?target={serving.address}")
    page.wait_for_function("() => document.title === 'done'")
    got = page.evaluate("window.got")
    assert not [each for each in got if not each.startswith("no-cors")], got
    assert not [each for each in got if "planter" in each or "Gantline" in each], got
    assert tree_hash(folder) == before
    context.close()


def test_a34_a_name_that_is_made_to_point_here_is_refused(launch: Callable[..., Browser], serving: Outside) -> None:
    """DNS rebinding: another site's name leads to this machine, so that the browser takes our answers for its own."""
    browser = launch("--host-resolver-rules=MAP evil.test 127.0.0.1")
    try:
        page = browser.new_page()
        for path in ("/", "/api/files", f"/?token={serving.token}", "/page/loft.js"):
            answer = page.goto(f"http://evil.test:{serving.port}{path}")
            assert answer is not None
            assert answer.status == 403
            assert "planter" not in answer.text()
        status = page.evaluate("fetch('/api/files', { credentials: 'include' }).then((answer) => answer.status)")
        assert status == 403
    finally:
        browser.close()


@pytest.fixture
def running(serving: Outside) -> str:
    return f"{serving.address}/?token={serving.token}"


def test_a15_the_token_leaves_the_address_and_the_history(chromium: Browser, serving: Outside) -> None:
    context = chromium.new_context()
    page = context.new_page()
    page.goto(f"{serving.address}/?token={serving.token}")
    page.wait_for_selector("html[data-ready]")
    assert serving.token not in page.url
    assert serving.token not in page.content()
    assert page.evaluate("document.cookie") == "", "no script can read the cookie"
    page.goto("about:blank")
    page.go_back()
    assert serving.token not in page.url
    context.close()


def test_a14_without_the_token_a_person_is_told_what_to_do(chromium: Browser, serving: Outside) -> None:
    context = chromium.new_context()
    page = context.new_page()
    answer = page.goto(f"{serving.address}/?token=of-yesterday")
    assert answer is not None
    assert answer.status == 401
    assert "Open the address it printed last." in page.inner_text("main")
    context.close()


def test_a25_hostile_words_stay_words(window: Callable[..., Window], folder: Path) -> None:
    """Title, comments and values; in the page, in problems, on the screen. The window's faults hold every dialog,
    every violation of the policy and every request elsewhere."""
    opened = window()
    for number, words in enumerate(HOSTILE[:4]):
        text = PLANTER.replace("Planter onto the roof terrace", words) + f"# {words}\n"
        (folder / f"hostile-{number}.rig").write_text(text, encoding="utf-8")
        page = opened.open(f"hostile-{number}.rig")
        assert page.inner_text("#title") == words
        assert page.locator("img[src=x], svg[onload], script:not([src], #begun)").count() == 0
    broken = PLANTER + "\n".join(HOSTILE)
    (folder / "broken.rig").write_text(broken, encoding="utf-8")
    page = opened.page
    page.goto("about:blank")
    page.goto(f"{opened.address}#file=broken.rig")
    opened.ready()
    page.locator("#card").wait_for()
    assert page.locator("img[src=x], svg[onload], script:not([src], #begun)").count() == 0
    page = opened.open("hostile-0.rig")
    page.locator("#present").click()
    page.locator(".screen .picture svg").wait_for()
    assert page.locator(".screen title").first.text_content() == HOSTILE[0]


def test_a27_the_policy_that_is_sent_is_the_one_that_holds(window: Callable[..., Window]) -> None:
    opened = window()
    page = opened.open("planter.rig")
    answer = page.reload()
    assert answer is not None
    assert answer.headers["content-security-policy"] == POLICY
    refused = page.evaluate("""async () => {
      const seen = [];
      document.addEventListener('securitypolicyviolation', (event) => seen.push(event.violatedDirective));
      const script = document.createElement('script');
      script.textContent = 'window.ran = true';
      document.head.append(script);
      await fetch('https://evil.example/').catch(() => {});
      const image = new Image();
      image.src = 'https://evil.example/x.png';
      await new Promise((ready) => setTimeout(ready, 200));
      window.refused = [];
      return [window.ran === undefined, seen.sort().join(' ')];
    }""")
    opened.faults.clear()  # the picture was asked for and refused, as it should be
    assert refused == [True, "connect-src img-src script-src-elem"]
