"""The program's own help: every command that there is stands in it, and leads to the file it is in."""

from __future__ import annotations

from importlib import import_module

from typer.main import get_group

from joinlay.cli.app import _FILES


def test_every_command_of_every_file_is_listed():
    there = {name: file for file in set(_FILES.values()) for name in get_group(import_module(f"joinlay.cli.{file}").app).commands}
    assert there == _FILES
