"""``joinlay keys``: every key that may be written in a job, with its meaning, what is usual, and its rule."""

from joinlay.cli.keys_command import keys_of_job
from joinlay.jobs.tables.shop import PRACTICE_KEYS
from joinlay.shop import LENGTH_RULES, RATIO_RULES
from joinlay.shop.machines import MACHINE_FIGURES
from tests.cli.running import run


def test_every_key_of_every_table_is_told(capsys):
    ran = run(capsys, "keys")
    assert (ran.code, ran.err) == (0, "")
    tables = keys_of_job()
    assert {"job", "stock", "drawers", "drawer", "bank", "case.room", "shop.router-table", "pulls.dot", "practice"} <= set(tables)
    for table in tables.values():
        assert table.head in ran.out.splitlines()
        for key, said in table.keys.items():
            assert len(said) >= 5
            assert f"  {key} " in ran.out


def test_one_table_is_told_alone_however_it_is_written(capsys):
    ran = run(capsys, "keys", "drawers")
    assert ran.out.startswith("[drawers]\n")
    assert ran.out == run(capsys, "keys", "[drawers]").out
    assert "[frame]" not in ran.out
    # DR-1: an inch and a metric figure, the rule and its source stand beside the key.
    said = " ".join(ran.out.split())
    assert "side-clearance Drawer to opening at each side; 1/32 in or 0.8 mm unless told (DR-1, common practice)." in said
    assert run(capsys, "keys", "drawer").out.startswith("[[drawer]]\n")
    assert run(capsys, "keys", "stock").out.startswith("[stock.NAME]\n")


def test_a_table_that_is_not_there_is_answered_with_near_ones(capsys):
    ran = run(capsys, "keys", "drawrs")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == "a job has no table 'drawrs'; write one of these: drawers, drawer, drawer.inside.\n"


def test_every_figure_of_the_trade_and_of_machines_stands_somewhere_with_what_is_usual(capsys):
    said = " ".join(run(capsys, "keys").out.split())
    practice = keys_of_job()["practice"].keys
    rows = [(row.name, row.rule, row.source, row.inch) for row in LENGTH_RULES]
    rows += [(row.name, row.rule, row.source, row.value) for row in RATIO_RULES]
    for name, rule, source, usual in rows:
        key = next(key for key, called in PRACTICE_KEYS.items() if called == name)
        assert f"({rule}, {source})" in practice[key]
        assert usual in practice[key]
    for inch, metric, rule, source in MACHINE_FIGURES.values():
        assert f"{inch} in or {metric} mm unless told ({rule}, {source})" in said
