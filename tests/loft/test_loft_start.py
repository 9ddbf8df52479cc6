"""The loft is started: its address, who may come in, how the browser learns of it, and how it ends."""

import re
import signal
import socket
import stat
import sys
import time
import webbrowser
from pathlib import Path
from urllib.parse import unquote, urlparse

import pytest
from inside import PLANTER
from outside import loft, status

from gantline.cli import main
from gantline.loft import serving, starting
from gantline.loft.guard import Keys
from gantline.loft.starting import NotStarted, Opened, start


class Started(Exception):
    """Thrown in place of serving, with what would be served."""

    def __init__(self, place: serving.Place) -> None:
        super().__init__()
        self.place = place


@pytest.fixture
def unserved(monkeypatch: pytest.MonkeyPatch) -> None:
    """Everything up to serving, which is not begun."""

    def serve(place: serving.Place, ready: object) -> None:
        raise Started(place)

    monkeypatch.setattr(serving, "serve", serve)


def started(where: Path, **more: object) -> serving.Place:
    with pytest.raises(Started) as found:
        start(Opened(str(where), browser=False, port=0, **more), lambda _: None)  # type: ignore[arg-type]
    return found.value.place


def test_the_first_line_is_the_address_and_the_second_how_to_stop(tmp_path: Path) -> None:
    with loft(tmp_path) as running:
        assert running.address == f"http://127.0.0.1:{running.port}"
        assert running.process.stdout
        assert running.process.stdout.readline() == "Ctrl+C stops it.\n"
        assert status(running.get("/")) == 200


def test_ctrl_c_ends_it_without_a_word_and_its_workers_with_it(tmp_path: Path) -> None:
    with loft(tmp_path) as running:
        workers = Path(f"/proc/{running.process.pid}/task/{running.process.pid}/children").read_text().split()
        assert workers
        running.process.send_signal(signal.SIGINT)
        assert running.process.wait(10) in (0, 130)
        assert running.process.stderr
        assert running.process.stderr.read() == ""
        assert not [pid for pid in workers if alive(pid)]


def test_workers_end_with_a_server_that_is_killed(tmp_path: Path) -> None:
    with loft(tmp_path) as running:
        workers = Path(f"/proc/{running.process.pid}/task/{running.process.pid}/children").read_text().split()
        running.process.kill()
        running.process.wait()
        for _ in range(100):
            if not any(alive(pid) for pid in workers):
                break
            time.sleep(0.05)
        assert not any(alive(pid) for pid in workers)


def alive(pid: str) -> bool:
    try:
        return "State:\tZ" not in Path(f"/proc/{pid}/status").read_text()
    except OSError:
        return False


def test_a15_the_token_stands_in_no_argument_no_file_and_no_log(tmp_path: Path) -> None:
    (tmp_path / "planter.rig").write_text(PLANTER, encoding="utf-8")
    with loft(tmp_path) as running:
        for path in ("/", "/api/files", "/nowhere"):
            running.get(path)
            running.say(f"GET {path}?token={running.token}x HTTP/1.1\r\nhost: a\r\nconnection: close\r\n\r\n".encode())
        process = running.process.pid
        children = Path(f"/proc/{process}/task/{process}/children").read_text().split()
        for pid in (str(process), *children):
            assert running.token.encode() not in Path(f"/proc/{pid}/cmdline").read_bytes()
            assert running.token.encode() not in Path(f"/proc/{pid}/environ").read_bytes()
        running.process.kill()
        said, logged = running.process.communicate()
    assert running.token not in said + logged
    assert all(running.token.encode() not in path.read_bytes() for path in tmp_path.rglob("*") if path.is_file())


def test_a15_the_browser_is_told_in_a_file_of_its_own_that_goes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[tuple[Path, int, int, str]] = []

    def opened(address: str) -> bool:
        file = Path(unquote(urlparse(address).path))
        mode, folder = (stat.S_IMODE(path.stat().st_mode) for path in (file, file.parent))
        seen.append((file, mode, folder, file.read_text(encoding="ascii")))
        return True

    monkeypatch.setattr(webbrowser, "open", opened)
    monkeypatch.setattr(serving, "serve", lambda place, ready: ready())
    said: list[str] = []
    start(Opened(str(tmp_path), port=0), said.append)
    ((file, mode, folder, text),) = seen
    assert (mode, folder) == (0o600, 0o700)
    assert f"url={said[0]}" in text
    assert not file.exists()
    assert tmp_path not in file.parents


@pytest.mark.usefixtures("unserved")
def test_a_file_is_opened_in_its_folder(tmp_path: Path) -> None:
    (tmp_path / "planter.rig").write_text(PLANTER, encoding="utf-8")
    place = started(tmp_path / "planter.rig")
    assert (place.folder, place.file) == (tmp_path, "planter.rig")
    assert started(tmp_path).file is None
    assert started(tmp_path / "new.rig").file == "new.rig", "a file that is not there yet is begun"


@pytest.mark.usefixtures("unserved")
def test_names_behind_a_proxy_come_first(tmp_path: Path) -> None:
    token = tmp_path / "token"
    token.write_text("a" * 40 + "\n")
    token.chmod(0o600)
    place = started(tmp_path, listen="127.0.0.1", names=("https://Loft.Example/",), token=str(token))
    assert place.keys.origins[0] == "https://loft.example"
    assert place.keys.token == "a" * 40
    assert "loft.example" in place.keys.hosts
    assert place.keys.cookie == "gantline", "servers on several ports share it"


@pytest.mark.usefixtures("unserved")
def test_two_starts_have_two_tokens(tmp_path: Path) -> None:
    keys: list[Keys] = [started(tmp_path).keys for _ in range(2)]
    assert keys[0].token != keys[1].token


@pytest.mark.usefixtures("unserved")
def test_the_usual_port_or_the_next(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        monkeypatch.setattr(starting, "PORT", taken.getsockname()[1])
        with pytest.raises(Started) as found:
            start(Opened(str(tmp_path), browser=False), lambda _: None)
        port = int(found.value.place.keys.origins[0].rpartition(":")[2])
        assert taken.getsockname()[1] < port <= taken.getsockname()[1] + starting.NEIGHBOURS


REFUSED = {
    "no folder": (["nowhere/x.rig"], "there is no folder"),
    "no rig": (["picture.png"], "is no rig and no folder"),
    "no port": ([".", "--port", "70000"], "there is no port 70000"),
    "a negative port": ([".", "--port", "-1"], "there is no port -1"),
    "everybody": ([".", "--listen", "0.0.0.0"], "every address of this machine"),
    "not of this machine": ([".", "--listen", "192.0.2.7"], "cannot listen on 192.0.2.7"),
    "no address": ([".", "--listen", "no such place"], "cannot listen on"),
    "a name without http": ([".", "--name", "loft.example"], "begins with http"),
    "no token": ([".", "--token", "nothing"], "cannot read the token"),
    "a short token": ([".", "--token", "short"], "is no good one"),
    "an open token": ([".", "--token", "open"], "others may read"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_started_is_said(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "picture.png").write_bytes(b"\x89PNG")
    for file, mode in (("short", 0o600), ("open", 0o644)):
        (tmp_path / file).write_text("abc" if file == "short" else "a" * 40)
        (tmp_path / file).chmod(mode)
    words, says = REFUSED[name]
    assert main(["loft", *words, "--no-browser"]) == 1
    told = capsys.readouterr().err
    assert says in told
    assert "\n  do   " in told
    assert "Traceback" not in told


def test_a_port_that_is_taken(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert main(["loft", str(tmp_path), "--no-browser", "--port", str(port)]) == 1
    assert f"port {port} is taken" in capsys.readouterr().err


@pytest.mark.parametrize("package", ["uvicorn", "starlette"])
def test_without_its_packages_it_says_what_to_install(
    package: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in [name for name in sys.modules if re.match(rf"{package}(\.|$)|gantline\.loft(\.|$)", name)]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, package, None)
    assert main(["loft", str(tmp_path), "--no-browser"]) == 1
    assert "pip install 'gantline[loft]'" in capsys.readouterr().err


def test_a_folder_that_cannot_be_opened_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(serving, "serve", refuse)
    with pytest.raises(NotStarted, match="permission denied"):
        start(Opened(str(tmp_path), browser=False, port=0), lambda _: None)


def test_a_module_in_the_served_folder_is_not_taken_for_ours(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "gantline.py").write_text("raise SystemExit(9)\n")
    (tmp_path / "msgspec.py").write_text("raise SystemExit(9)\n")
    monkeypatch.chdir(tmp_path)
    with loft(tmp_path) as running:
        assert status(running.get("/shelf/planter")) == 200
