"""A job may give nothing but openings, for drawers that go into a piece that stands already."""

import pytest

from tests.cli.running import run
from tests.measured.packets import example, openings


@pytest.mark.parametrize("job", openings(), ids=lambda job: job.stem)
def test_drawers_alone_are_checked_and_made(job, capsys, tmp_path):
    planned = example(job.stem)
    assert planned.others == ()
    assert not planned.is_refused
    checked = run(capsys, "check", str(job))
    assert checked.code == 0
    assert f"{len(planned.drawers)} drawers" in checked.out
    assert run(capsys, "make", str(job), "--out", str(tmp_path)).code == 0
    assert (tmp_path / "packet.pdf").stat().st_size > 0
    assert any(path.name.endswith("front-left-and-right-end.svg") for path in tmp_path.iterdir())
