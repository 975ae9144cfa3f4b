"""``joinlay look`` as a maker starts it: a process of its own with a job open, and a browser's way of asking it."""

from __future__ import annotations

import http.client
import os
import re
import signal
import subprocess
import sys
from pathlib import Path
from urllib.parse import urlencode, urlsplit

from tests.house.source import ROOT

__all__ = ["Looking"]


class Looking:
    """A job that ``joinlay look`` has open: its ``path``, and its ``addresses``, that of the bench first."""

    def __init__(self, path, *more, env=None):
        self.path, self.text, self.token, self.revision = path, "", "", "0"
        self.process = subprocess.Popen(
            [sys.executable, "-c", "from joinlay.cli import main\nmain()", "look", path.name, *more],
            cwd=path.parent,
            stdout=subprocess.PIPE,
            text=True,
            env={**(env or os.environ), "PYTHONPATH": str(ROOT)},
        )
        self.addresses: list[str] = []
        assert self.process.stdout is not None
        while len(self.addresses) < (2 if "--share" in more else 1):
            line = self.process.stdout.readline()
            assert line, "it stopped before it showed its address"
            self.addresses += re.findall(r"http://\S+", line)
        self._line = http.client.HTTPConnection(urlsplit(self.addresses[0]).netloc)

    def open(self):
        """The page as it is first shown; from then on it can be written to."""
        _, shown = self.ask("GET", "/")
        token = re.search(r'X-Bench-Token": "([^"]+)"', shown)
        assert token
        self.token = token[1]
        return shown

    def write(self, text, view="front"):
        """What is answered to ``text`` typed, as (status, HTML)."""
        status, shown = self.ask("POST", "/text", text=text, view=view, window="one", revision=self.revision, mode="text")
        now = re.search(r'name="revision" value="(\d+)"', shown)
        self.revision = now[1] if now else self.revision
        return status, shown

    def ask(self, method, address, **form):
        """The answer to one request, as (status, text)."""
        headers = {"Content-Type": "application/x-www-form-urlencoded", "X-Bench-Token": self.token} if form else {}
        self._line.request(method, address, urlencode(form, errors="replace") if form else None, headers)
        answer = self._line.getresponse()
        return answer.status, answer.read().decode()

    @property
    def memory(self):
        """What it holds in memory now, in MB, by the system's own account."""
        status = Path(f"/proc/{self.process.pid}/status").read_text()
        return int(status.partition("VmRSS:")[2].split()[0]) / 1024

    @property
    def spent(self):
        """The seconds of processor time it has taken, by the system's own account."""
        figures = Path(f"/proc/{self.process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(figures[11]) + int(figures[12])) / os.sysconf("SC_CLK_TCK")

    def stop(self):
        """Stop it as a maker does, with Ctrl+C; how it ended."""
        self._line.close()
        self.process.send_signal(signal.SIGINT)
        self.process.communicate(timeout=20)
        return self.process.returncode
