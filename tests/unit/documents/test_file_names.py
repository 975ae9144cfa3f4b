"""Names of files and folders that every system takes, and that stay the same whatever else is made.

What systems take: on POSIX any letters but a stroke; on Windows none of <>:"/\\|?*, no dot or space at the end, and no name of a
device, whatever comes after its first dot (as its makers describe the naming of files, from memory); 255 bytes on most, 143
where names are encrypted; and capitals are told apart on some only.
"""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from joinlay.documents.job_folder import usual_folder
from joinlay.documents.template_files import template_dxfs, template_svgs
from joinlay.paper import LONGEST_NAME, name_fault
from joinlay.templates import templates_for
from tests.unit.templates.parts import METRIC, side

DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
CLIPS = ("for the paper clips " * 6)[:LONGEST_NAME].strip()
#: Names that a job may give, and that come to the same letters, or to none.
NAMES = (
    *("CON", "con.", "nul.svg", "...", "---", "a", "a.", "a-", "a b", "a-b", "a/b", "a\\b", "a:b", "a*?", "<a>", "|a|", '"a"'),
    *("é", "ê", "e", "½", "комод", "Κομό", "../../x", "a, b", "A, B.", CLIPS[:-1] + "a", CLIPS[:-1] + "b", "ß", "1", "01"),
)
(SIDE, *_) = templates_for([side()], METRIC)


def template(name):
    return replace(SIDE, names=(f"drawer {name} left side",))


def names_of(names, files=template_svgs):
    return [file for file, _ in files([template(name) for name in names])]


def test_every_system_takes_them_and_none_is_another():
    assert [name for name in NAMES if name_fault(name)] == []
    for kind in (template_svgs, template_dxfs):
        found = names_of(NAMES, kind)
        assert len({name.casefold() for name in found}) == len(NAMES)
        assert [name for name in found if not re.fullmatch(r"[a-z0-9][a-z0-9-]*\.(svg|dxf)", name)] == []
        assert [name for name in found if name.partition(".")[0] in DEVICES] == []
        assert max(map(len, found)) <= 143


def test_a_name_is_the_same_whatever_else_is_made():
    assert [names_of([name])[0] for name in NAMES] == names_of(NAMES) == names_of(NAMES[::-1])[::-1]
    assert names_of(["1"]) == ["drawer-1-left-side-front-end.svg"], "a plain name stands as it is"


@pytest.mark.parametrize(
    ("job", "folder"),
    [
        ("chest.toml", "chest"),
        ("a/chest 2.toml", "chest 2"),
        ("chest..toml", "chest"),
        ("chest .toml", "chest"),
        ("..toml", "job"),
    ],
)
def test_a_jobs_folder_has_its_name_without_what_some_systems_drop(job, folder):
    assert usual_folder(Path(job)) == Path("templates_out") / folder
