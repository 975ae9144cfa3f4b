"""Works shared with a second process: each done once, and whatever happens to the second, done all the same.

Each runs in a process of its own, since those of the tests have threads, and must not be split.
"""

import os
import signal
import subprocess
import sys
import time

import pytest

from tests.house.source import ROOT

#: Before each: two cores, whatever this machine has; a way to see who does a work, and to wait until the second has taken one.
BEFORE = """
import atexit, os, signal, threading, time
from joinlay.documents import second_core
from joinlay.documents.second_core import SecondCore

first = os.getpid()
is_first = lambda: os.getpid() == first
here = second_core.has_second_core
second_core.has_second_core = lambda: True
(taken, take), (go, let_go) = os.pipe(), os.pipe()

def is_taken():
    return is_first() or os.write(take, b".")

def begin_a_thread():
    threading.Thread(target=os.read, args=(go, 1), daemon=True).start()

def no_process_is_left():
    try:
        os.waitpid(-1, os.WNOHANG)
    except ChildProcessError:
        return True
    return False
"""

#: What is done in the second stays silent and ends there; what the first has to say is said once.
SHARED = """
atexit.register(print, "the end")
print("not yet flushed")

def held_back():
    is_taken()
    print("in the second")
    return os.read(go, 1), is_first()

with SecondCore() as second:
    one, two = second.give(held_back), second.give(lambda: ("two", is_first()))
    second.begin()
    os.read(taken, 1)
    assert two() == ("two", True)
    os.write(let_go, b"!")
    assert one() == (b"!", False)
    assert one() is one()
assert no_process_is_left()
"""

#: A work that is given later isn't known to the second; it is done in the first rather than to wait, or when it is asked for.
MEANWHILE = """
done = []
with SecondCore() as second:
    one = second.give(lambda: is_taken() and os.read(go, 1))
    second.begin()
    os.read(taken, 1)
    second.give(lambda: 1 / 0)
    last = second.give(lambda: done.append(1) or os.write(let_go, b"!") and "last")
    assert one() == b"!"
    assert done == [1]
    assert last() == "last"
    assert second.give(lambda: "asked for")() == "asked for"
assert done == [1]
assert no_process_is_left()
"""

NOBODY_ELSE = """
{alone}
with SecondCore() as second:
    one = second.give(lambda: ("one", is_first()))
    second.begin()
    assert one() == ("one", True)
    later = second.give(lambda: "later")
    assert later() == "later"
assert no_process_is_left()
"""

#: Why there is none: the system splits none off, or but one core may be used, or there is a thread; or none is begun.
NONE = {
    "no process": "os.fork = lambda: exec('raise BlockingIOError')",
    "one core": "second_core.has_second_core = here; os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})",
    "a thread": "second_core.has_second_core = here; os.sched_getaffinity = lambda _: {0, 1}; begin_a_thread()",
    "not begun": "SecondCore.begin = lambda self: None",
}

FAILS = """
with SecondCore() as second:
    one = second.give(lambda: ("one", is_first()) if is_first() else is_taken() and {fails})
    two = second.give(lambda: ("two", is_first()))
    second.begin()
    os.read(taken, 1)
    assert one() == ("one", True)
    assert two()[0] == "two"
assert no_process_is_left()
"""

#: What may go wrong in the second alone.
WRONG = {
    "killed": "os.kill(os.getpid(), 9)",
    "no memory": "exec('raise MemoryError')",
    "cannot be sent": "(lambda: None)",
    "gone": "os._exit(0)",
}

RAISES = """
with SecondCore() as second:
    def bad():
        raise ValueError("no such wood")
    one, two = second.give(bad), second.give(lambda: ["two"])
    second.begin()
    for _ in range(2):
        try:
            one()
        except ValueError as fault:
            assert str(fault) == "no such wood"
        else:
            raise AssertionError
    assert two()[0] == "two"
assert no_process_is_left()
"""

BROKEN_OFF = """
# A shell that runs the tests in its background has it passed over.
signal.signal(signal.SIGINT, signal.default_int_handler)
held = os.dup(2)
with SecondCore() as second:
    one = second.give(lambda: is_taken() and os.write(held, b"%d\\n" % os.getpid()) and time.sleep(60))
    second.begin()
    os.read(taken, 1)
    one()
"""


def ran(script):
    return subprocess.run([sys.executable, "-c", BEFORE + script], capture_output=True, text=True, cwd=ROOT, check=False)


def test_each_work_is_done_once_by_whoever_takes_it_first():
    done = ran(SHARED)
    assert (done.returncode, done.stdout, done.stderr) == (0, "not yet flushed\nthe end\n", "")


def test_while_the_second_is_waited_for_the_first_does_what_it_was_given_later():
    done = ran(MEANWHILE)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("why", NONE)
def test_without_a_second_process_all_is_done_in_the_first(why):
    done = ran(NOBODY_ELSE.format(alone=NONE[why]))
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("what", WRONG)
def test_whatever_goes_wrong_in_the_second_is_done_in_the_first(what):
    done = ran(FAILS.format(fails=WRONG[what]))
    assert (done.returncode, done.stderr) == (0, "")


def test_what_a_work_raises_is_raised_by_asking_for_it():
    done = ran(RAISES)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("to_both", [True, False])
def test_a_break_from_the_keyboard_ends_both(to_both):
    running = subprocess.Popen(
        [sys.executable, "-c", BEFORE + BROKEN_OFF], stderr=subprocess.PIPE, text=True, cwd=ROOT, start_new_session=True
    )
    assert running.stderr is not None
    second = int(running.stderr.readline())
    assert second != running.pid
    (os.killpg if to_both else os.kill)(running.pid, signal.SIGINT)
    said = running.communicate(timeout=20)[1]
    # The first says why it ends, as any program; the second nothing.
    assert said.count("KeyboardInterrupt") == 1
    # Waited for, or ended by the same break; where the first is gone sooner, the system waits for it.
    until = time.monotonic() + 5
    while is_there(second) and time.monotonic() < until:
        time.sleep(0.02)
    assert not is_there(second)


def is_there(process):
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True
