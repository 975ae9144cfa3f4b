"""The program as a whole: how it starts, ends, and says what it cannot do."""

import io
import signal
import subprocess
import sys
import time

import pytest
from typer.testing import CliRunner

from joinlay import __version__
from joinlay.cli.app import app
from joinlay.cli.terminal import Progress
from tests.cli.running import ROOT, run, run_alone
from tests.unit.jobs.jobs import GOOD


def test_it_runs_as_a_module_too():
    as_module = subprocess.run(
        [sys.executable, "-m", "joinlay", "--version"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert (as_module.returncode, as_module.stdout, as_module.stderr) == (0, f"joinlay {__version__}\n", "")
    assert run_alone("--version").out == f"joinlay {__version__}\n"


@pytest.mark.parametrize("command", ["start", "check", "make", "joint", "why"])
def test_every_command_is_in_the_help_and_has_its_own(capsys, command):
    page = run(capsys, "--help")
    assert page.code == 0
    assert f"\n  {command} " in page.out
    assert run(capsys, command, "--help").code == 0


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("chek",), "No such command 'chek'"),
        (("check",), "Missing argument"),
        (("check", "x.toml", "--jsn"), "No such option: --jsn"),
        (("make", "x.toml", "--out"), "requires an argument"),
        (("--nothing",), "No such option"),
    ],
)
def test_words_that_are_none_end_with_two(capsys, given, said):
    ran = run(capsys, *given)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err


def test_the_commands_through_typer_s_own_runner(tmp_path):
    runner, job = CliRunner(), tmp_path / "chest.toml"
    assert runner.invoke(app, ["start", str(job)]).exit_code == 0
    assert runner.invoke(app, ["check", str(job)]).exit_code == 0
    assert runner.invoke(app, ["check", str(tmp_path / "no.toml")]).exit_code == 2
    joint = runner.invoke(app, ["joint", "dado", "--into", "3/4", "--panel", "1/2"])
    assert joint.exit_code == 0
    assert joint.output.startswith("Dado: 1/2 in wide")
    assert runner.invoke(app, ["joint", "dado", "--into", "3/4", "--panel", "1/16"]).exit_code == 1
    assert runner.invoke(app, ["joint", "--help"]).output.startswith("Usage: joinlay joint NAME")


def test_an_answer_at_the_bench_fetches_only_what_it_needs():
    """Typer reads with pydantic; beside those two nothing that is not of Python or of the floors a joint stands on."""
    code = (
        "import sys\nfrom joinlay.cli import main\n"
        "try:\n    main()\nexcept SystemExit as done:\n    assert not done.code\n"
        "print([name for name in ('typer', 'pydantic', 'reportlab', 'rich', 'argparse') if name in "
        "sys.modules], file=sys.stderr)\n"
        "print(*sorted(name[8:] for name in sys.modules if name.startswith('joinlay.')), file=sys.stderr)"
    )
    ran = run_alone("joint", "dado", "--into", "18mm", "--panel", "11.7mm", "--metric", code=code)
    libraries, modules = ran.err.splitlines()
    assert (ran.code, libraries) == (0, "['typer', 'pydantic']")
    assert {"joints.dado", "settings.feeding"} <= set(modules.split())
    assert {name.split(".")[0] for name in modules.split()} <= {
        "boards",
        "cli",
        "errors",
        "findings",
        "joints",
        "lengths",
        "records",
        "settings",
        "shop",
    }
    assert not {"settings.cards", "joints.loose_tenon", "documents", "checks"} & set(modules.split())


#: Puts something else in the place of what reads a job, or of what answers for a joint, and then runs the command.
CHANGED = """
import signal
import time
from joinlay.cli import check_command, joint_bench, main

# A shell that runs the tests in its background has it passed over.
signal.signal(signal.SIGINT, signal.default_int_handler)

def stop(*given, **named):
    raise KeyboardInterrupt

def wait(*given, **named):
    print("ready", flush=True)
    time.sleep(60)

def fail(*given, **named):
    return 1 / 0

check_command.texts_of = joint_bench.Bench = {}
main()
"""


@pytest.mark.parametrize("given", [("check", "x.toml"), ("joint", "dado", "--into", "3/4", "--panel", "1/2")])
def test_a_stop_by_the_maker_ends_with_130(given):
    assert run_alone(*given, code=CHANGED.format("stop")).code == 130


@pytest.mark.parametrize("given", [("check", "x.toml"), ("joint", "dado", "--into", "3/4", "--panel", "1/2")])
def test_a_stop_sent_to_the_process_ends_with_130(given):
    command = [sys.executable, "-c", CHANGED.format("wait"), *given]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        process.send_signal(signal.SIGINT)
        _, err = process.communicate(timeout=30)
    assert process.returncode == 130
    assert "Traceback" not in err


@pytest.mark.parametrize("given", [("joint", "dado", "--into", "3/4", "--panel", "1/2"), ("why", "chest.toml"), ("--help",)])
def test_a_reader_that_goes_away_is_no_fault(tmp_path, given):
    (tmp_path / "chest.toml").write_text(GOOD)
    command = [
        sys.executable,
        "-c",
        f"import sys; sys.path.insert(0, {str(ROOT)!r}); from joinlay.cli import main; main()",
        *given,
    ]
    with subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        err = process.stderr.read()
    assert process.returncode in (0, 1)
    assert err == ""


@pytest.mark.parametrize("given", [("check", "x.toml"), ("joint", "dado", "--into", "3/4", "--panel", "1/2")])
def test_a_fault_of_its_own_is_owned_up_to(given):
    ran = run_alone(*given, code=CHANGED.format("fail"))
    assert (ran.code, ran.out) == (3, "")
    assert ran.err.startswith("joinlay came upon a fault of its own (ZeroDivisionError: division by zero).")


def test_a_fault_is_traced_only_when_asked():
    command = [sys.executable, "-c", CHANGED.format("fail"), "--trace", "check", "x.toml"]
    traced = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert "ZeroDivisionError" in traced.stderr
    assert "Traceback" in traced.stderr


def test_plain_terminals_are_written_to_in_their_own_letters(tmp_path):
    job = tmp_path / "chest.toml"
    job.write_text(GOOD.replace("Seed chest", "Commode à graines ⅝"), encoding="utf-8")
    code = "import sys\nsys.stdout.reconfigure(encoding='ascii')\nfrom joinlay.cli import main\nmain()"
    ran = run_alone("check", job, code=code)
    assert ran.code == 0
    assert ran.out.startswith("Commode ? graines ?: 1 drawer")


# -- the bar -------------------------------------------------------------------------------------------------


class Terminal(io.StringIO):
    def isatty(self):
        return True


def test_a_bar_appears_only_after_a_while_and_leaves_no_trace():
    screen = Terminal()
    with Progress(2, screen, after=0.05) as bar:
        bar.step("first")
        assert screen.getvalue() == ""
        time.sleep(0.4)
        assert screen.getvalue() == "\r\x1b[K[........................] first"
        bar.step("second")
        assert screen.getvalue().endswith("[############............] second")
    assert screen.getvalue().endswith("\r\x1b[K")


def test_what_is_quick_or_read_by_a_program_shows_no_bar():
    screen, file = Terminal(), io.StringIO()
    with Progress(1, screen, after=60) as bar:
        bar.step("quick")
    with Progress(1, file, after=0) as bar:
        bar.step("unseen")
        time.sleep(0.05)
    assert (screen.getvalue(), file.getvalue()) == ("", "")


HOSTILE = f"\x1b[2J\u202e a\njoinlay: all is well\r{'x' * 3000}"
LONG = "x" * 900


@pytest.mark.parametrize("word", [HOSTILE, "\u202ea", "a\nb", "x" * 1001, "\udcff.toml"], ids=ascii)
@pytest.mark.parametrize(
    "given", [("check",), ("make", "a.toml", "--out"), ("keys",), ("printer", "show"), ("schema",), (), ("check", "--packet")]
)
def test_a_word_that_forges_lines_or_has_no_end_is_refused_in_one_line(capsys, given, word):
    ran = run(capsys, *given, word)
    assert (ran.code, ran.out) == (2, "")
    (line,) = ran.err.splitlines()
    assert line.isprintable()
    assert len(line) < 300
    assert "at most 1000 signs, and none that cannot be seen" in line


@pytest.mark.parametrize(
    "given",
    [("check", LONG), ("keys", LONG), ("help-on", LONG), ("start", LONG), ("compare", LONG, LONG), ("printer", "show", LONG)],
)
def test_a_word_as_long_as_may_be_is_answered(capsys, given):
    ran = run(capsys, *given)
    assert ran.code == 2
    assert len(ran.err) < 3000


def test_a_folder_whose_name_no_system_takes_is_no_fault_of_the_program(job, capsys):
    ran = run(capsys, "make", job(GOOD), "--out", LONG)
    assert (ran.code, "its name is too long" in ran.err) == (2, True)
