"""Files are written whole or not at all: whatever stops the writing, the old ones are there and whole."""

import errno
import os
import resource
import shutil
import tempfile
from pathlib import Path

import pytest

from joinlay.documents.writing import write_all, write_whole
from joinlay.errors import BadInput

OLD = {"a.txt": b"old a", "b.txt": b"old b"}
NEW = {"a.txt": b"new a", "b.txt": b"new b", "c.txt": b"new c"}


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "out"
    write_all(made, OLD)
    return made


def held_in(folder):
    """Everything in a folder, hidden files too, so that nothing left over goes unseen."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_files_are_written_and_written_over(folder):
    assert held_in(folder) == OLD
    write_all(folder, NEW)
    assert held_in(folder) == NEW


def test_folders_are_made(tmp_path):
    write_all(tmp_path / "one" / "two", {"x": b""})
    assert held_in(tmp_path / "one" / "two") == {"x": b""}


def test_stale_files_go_and_others_stay(folder):
    (folder / "mine.txt").write_bytes(b"mine")
    write_all(folder, {"a.txt": b"new a"}, stale=iter(["a.txt", "b.txt", "gone.txt"]))
    assert held_in(folder) == {"a.txt": b"new a", "mine.txt": b"mine"}


@pytest.mark.parametrize("name", ["../x", "/x", "a/b", "..", ".", "", "x\0y"])
def test_names_may_not_lead_out_of_the_folder(tmp_path, name):
    with pytest.raises(BadInput, match="no plain file name"):
        write_all(tmp_path / "out", {"fine": b"", name: b""})
    with pytest.raises(BadInput, match="no plain file name"):
        write_all(tmp_path / "out", {}, stale=[name])
    assert list(tmp_path.iterdir()) == []


def failing(error, on):
    """A function that works until the call number ``on``, then fails as the system would."""
    calls = []

    def wrap(original):
        def call(*given, **more):
            calls.append(given)
            if len(calls) == on:
                raise OSError(error, os.strerror(error))
            return original(*given, **more)

        return call

    return wrap


@pytest.mark.parametrize("on", [1, 2, 3])
@pytest.mark.parametrize("error", [errno.ENOSPC, errno.EIO, errno.EDQUOT])
def test_a_disk_that_fills_while_writing_changes_nothing(folder, monkeypatch, on, error):
    monkeypatch.setattr(os, "fsync", failing(error, on)(os.fsync))
    with pytest.raises(BadInput, match="What was there before is untouched"):
        write_all(folder, NEW)
    assert held_in(folder) == OLD


@pytest.mark.parametrize("on", [1, 2, 3])
def test_a_stop_while_moving_into_place_puts_everything_back(folder, monkeypatch, on):
    monkeypatch.setattr(Path, "replace", failing(errno.EIO, on)(Path.replace))
    with pytest.raises(BadInput):
        write_all(folder, NEW)
    assert held_in(folder) == OLD


@pytest.mark.parametrize("on", [1, 2, 3])
def test_a_stop_by_the_maker_puts_everything_back(folder, monkeypatch, on):
    moved, as_usual = [], Path.replace

    def replace(self, target):
        moved.append(target)
        if len(moved) == on:
            raise KeyboardInterrupt
        return as_usual(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(KeyboardInterrupt):
        write_all(folder, NEW)
    assert held_in(folder) == OLD


def test_a_process_killed_while_moving_leaves_every_file_whole(folder, monkeypatch):
    moved: list[Path] = []
    as_usual = Path.replace

    def replace(self, target):
        if moved:
            os._exit(9)  # as if the plug were pulled: nothing more is done
        moved.append(target)
        return as_usual(self, target)

    child = os.fork()
    if child == 0:
        monkeypatch.setattr(Path, "replace", replace)
        write_all(folder, NEW)
        os._exit(0)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9
    held = held_in(folder)
    assert {name: held[name] for name in OLD} == {"a.txt": b"new a", "b.txt": b"old b"}


def test_systems_without_hard_links_keep_the_old_files_too(folder, monkeypatch):
    monkeypatch.setattr(os, "link", failing(errno.EPERM, 1)(os.link))
    monkeypatch.setattr(Path, "replace", failing(errno.EIO, 2)(Path.replace))
    with pytest.raises(BadInput):
        write_all(folder, NEW)
    assert held_in(folder) == OLD


def in_a_child(work):
    """Run ``work`` in a process of its own, and give what it returned or the text of its BadInput."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            said = str(work())
        except BadInput as bad:
            said = f"BadInput: {bad}"
        except BaseException as fault:
            said = f"fault: {fault!r}"
        os.write(writing, said.encode())
        os._exit(0)
    os.close(writing)
    os.waitpid(child, 0)
    with os.fdopen(reading) as file:
        return file.read()


def test_a_limit_on_the_size_of_files_changes_nothing(folder):
    def work():
        resource.setrlimit(resource.RLIMIT_FSIZE, (100, resource.RLIM_INFINITY))
        write_all(folder, {"a.txt": b"new", "b.txt": b"x" * 200})

    assert "the file would be larger than this system allows. What was there before is untouched." in in_a_child(work)
    assert held_in(folder) == OLD


def test_a_folder_that_may_not_be_written_to():
    # Outside the folders of the tests, which nobody else may enter; as nobody where the tests run as the one who may do all.
    place = Path(tempfile.mkdtemp())
    try:
        place.chmod(0o755)
        closed = place / "closed"
        closed.mkdir()
        (closed / "a.txt").write_bytes(b"old")
        closed.chmod(0o555)

        def work(target):
            def run():
                if os.geteuid() == 0:
                    os.setuid(65534)
                return target()

            return run

        for said in (
            in_a_child(work(lambda: write_all(closed, NEW))),
            in_a_child(work(lambda: write_all(closed / "new", NEW))),
            in_a_child(work(lambda: write_whole(closed / "a.txt", b"new"))),
        ):
            assert said.startswith(f"BadInput: {closed}")
            assert "it may not be written to" in said
        assert held_in(closed) == {"a.txt": b"old"}
    finally:
        closed.chmod(0o755)
        shutil.rmtree(place)


def test_a_folder_where_a_file_should_go(tmp_path):
    out = tmp_path / "out"
    write_all(out, OLD)
    (out / "c.txt").mkdir()
    with pytest.raises(BadInput, match=r"c\.txt cannot be written: there is a folder of that name"):
        write_all(out, NEW)
    assert {path.name for path in out.iterdir()} == {"a.txt", "b.txt", "c.txt"}
    assert (out / "a.txt").read_bytes() == b"old a"
    with pytest.raises(BadInput, match="there is a folder of that name"):
        write_whole(out, b"")


def test_a_file_where_a_folder_should_be(tmp_path):
    (tmp_path / "file").write_bytes(b"here")
    with pytest.raises(BadInput, match="a file"):
        write_all(tmp_path / "file", NEW)
    with pytest.raises(BadInput, match="part of its path is a file"):
        write_all(tmp_path / "file" / "out", NEW)
    with pytest.raises(BadInput, match="part of its path is a file"):
        write_whole(tmp_path / "file" / "x", b"")
    assert held_in(tmp_path) == {"file": b"here"}


def test_a_folder_that_was_made_goes_again_where_the_writing_fails(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "fsync", failing(errno.ENOSPC, 1)(os.fsync))
    with pytest.raises(BadInput, match="the disk is full"):
        write_all(tmp_path / "one" / "two", NEW)
    assert list(tmp_path.iterdir()) == []


def test_devices_are_not_written_over():
    with pytest.raises(BadInput, match="not an ordinary file"):
        write_whole(Path(os.devnull), b"x")


def test_what_cannot_be_there(tmp_path):
    with pytest.raises(BadInput, match="its folder is not there"):
        write_whole(tmp_path / "no" / "x", b"")
    with pytest.raises(BadInput, match="its name is too long"):
        write_whole(tmp_path / ("x" * 300), b"")
    (tmp_path / "round").symlink_to(tmp_path / "round")
    with pytest.raises(BadInput, match="circle of links"):
        write_whole(tmp_path / "round", b"")


def test_a_link_stays_a_link(tmp_path):
    (tmp_path / "real").write_bytes(b"old")
    (tmp_path / "link").symlink_to("real")
    write_whole(tmp_path / "link", b"new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real").read_bytes() == b"new"


def test_what_a_run_that_was_cut_short_left_is_no_obstacle(tmp_path):
    (tmp_path / f".joinlay-{os.getpid()}-0-0.part").write_bytes(b"left")
    write_whole(tmp_path / "x", b"new")
    assert held_in(tmp_path) == {"x": b"new"}
