"""Laws of the job file: every key has a line, nothing a maker can write brings it down, and units change nothing."""

import tomllib

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.errors import Troubles
from joinlay.jobs.reader import named_shop_file, read_job
from joinlay.jobs.source import key_lines, line_of
from joinlay.lengths import MM_PER_INCH
from tests.unit.jobs.jobs import GOOD

# -- TOML of any kind, written with the lines kept count of ------------------------------------------------

bare_keys = st.text("abcAZ09_-", min_size=1, max_size=6)
quoted_keys = st.text(st.characters(exclude_categories=["C"], exclude_characters='"\\'), max_size=6).map(
    lambda key: (f'"{key}"', key)
)
keys = st.one_of(bare_keys.map(lambda key: (key, key)), quoted_keys, bare_keys.map(lambda key: (f"'{key}.x'", f"{key}.x")))
texts = st.sampled_from(
    ['"a # b"', r'"\" ] }"', "'\\'", '""', "''", '"""a\n[b]\nc = 1\n"""', '"""two""x"""""', "'''\n]} '' # x\n'''", "'''a'''''"]
)
scalars = st.one_of(
    texts,
    st.integers(-99, 99).map(str),
    st.sampled_from(["true", "3.5", "1e3", "inf", "1979-05-27 07:32:00Z", "07:32:00", "0xAF"]),
)
gaps = st.sampled_from(["", " ", "\n", ' # ] } "\n', "\n\n\t"])


def list_of(values):
    """An array of values, with blanks, notes and line ends between."""
    return st.lists(st.tuples(gaps, values, gaps), max_size=3).map(
        lambda items: "[" + ",".join(f"{before}{value}{after}" for before, value, after in items) + "]"
    )


def table_of(values):
    """An inline table."""
    pairs = st.lists(st.tuples(keys, values), max_size=3, unique_by=lambda pair: pair[0][1])
    return pairs.map(lambda items: "{ " + ", ".join(f"{key[0]} = {value}" for key, value in items) + " }")


values = st.recursive(scalars, lambda inner: st.one_of(list_of(inner), table_of(inner)), max_leaves=6)
lines = st.lists(
    st.one_of(
        st.tuples(keys, values).map(lambda pair: f"{pair[0][0]} = {pair[1]}  # a note"),
        st.tuples(bare_keys, keys, scalars).map(lambda pair: f"{pair[0]} . {pair[1][0]} = {pair[2]}"),
        st.tuples(keys, keys).map(lambda pair: f"[ {pair[0][0]}.{pair[1][0]} ]"),
        keys.map(lambda key: f"[[{key[0]}]]"),
        st.tuples(bare_keys, bare_keys).map(lambda pair: f"[[{pair[0]}.{pair[1]}]]"),
        st.sampled_from(["", "# [no.table]", "\t"]),
    ),
    max_size=8,
)


def paths_in(value, path=()):
    """The path of every key and element of what the TOML reader gives."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, under in inner:
        yield (*path, key)
        yield from paths_in(under, (*path, key))


@settings(max_examples=300)
@given(lines)
def test_every_key_the_reader_finds_has_a_line_and_no_other(written):
    kept: dict[tuple[str | int, ...], range] = {}
    text = ""
    for line in written:
        # A line the reader takes as it stands is kept, and the keys it brings are those that stand in it.
        try:
            tree = tomllib.loads(f"{text}{line}\n")
        except tomllib.TOMLDecodeError:
            continue
        first = text.count("\n") + 1
        for path in paths_in(tree):
            kept.setdefault(path, range(first, first + line.count("\n") + 1))
        text += f"{line}\n"
    found = key_lines(text)
    assert set(found) == set(kept)
    assert all(found[path] in kept[path] for path in kept)


# -- jobs of any kind ------------------------------------------------------------------------------------

wild_values = st.one_of(
    values,
    st.sampled_from(
        ['"18 3/8"', '"4 mm"', "-1", "0", '"cherry"', '"loose tenon"', "{ width = 3 }", "[[1]]", "1e9", '"1/3"', "9" * 200]
    ),
)
wild_lines = st.tuples(
    st.sampled_from(
        [
            "title",
            "units",
            "smallest",
            "shop",
            "name",
            "count",
            "opening",
            "front",
            "sides",
            "taper",
            "tenon",
            "kerf",
            "cutters",
            "nominal",
            "opening.width",
            "front-joint",
            "measured",
            "sheet",
            "side-clearance",
            "tenon-share",
            "size",
        ]
    ),
    wild_values,
).map(lambda pair: f"{pair[0]} = {pair[1]}")
wild_headers = st.sampled_from(
    [
        "[stock.cherry]",
        "[stock.x]",
        "[stock]",
        "[shop]",
        "[practice]",
        "[paper]",
        "[drawers]",
        "[[drawer]]",
        "[drawer]",
        "[drawer.opening]",
    ]
)


@settings(max_examples=150)
@given(st.lists(st.one_of(wild_lines, wild_headers), max_size=10), st.integers(0, 26), st.booleans())
def test_a_job_is_read_or_says_what_is_wrong(written, at, is_in_place_of):
    rows = GOOD.splitlines()
    rows[at : at + is_in_place_of] = written
    text = "\n".join(rows)
    try:
        job = read_job(text, "chest.toml")
    except Troubles as bad:
        found = bad.troubles
    else:
        assert job.drawers
        return
    assert found
    for trouble in found:
        assert trouble.file == "chest.toml"
        assert 0 <= trouble.line <= text.count("\n") + 1
        assert trouble.message
        assert "\n" not in trouble.where


@settings(max_examples=150)
@given(st.text(max_size=60))
def test_text_of_any_kind_is_no_job(text):
    for read in (read_job, named_shop_file):
        said = ""
        try:
            read(text, "chest.toml")
        except Troubles as bad:
            said = str(bad)
        assert said.startswith("chest.toml") or (read is named_shop_file and not said)


@given(st.text(st.characters(codec="utf-8"), max_size=30).filter(lambda name: '"' not in name and "\\" not in name))
def test_a_name_of_any_kind_is_taken_or_refused(name):
    text = f'{GOOD}name = "{name}"\n'
    try:
        tomllib.loads(text)
        job = read_job(text, "chest.toml")
    except ValueError:
        return
    assert job.drawers[0].name == "drawer " + " ".join(name.split()).removeprefix("drawer ")


# -- one piece in two units ------------------------------------------------------------------------------

sixty_fourths = st.integers(64, 64 * 30)


@settings(max_examples=40)
@given(sixty_fourths, sixty_fourths, sixty_fourths, st.integers(0, 4))
def test_a_job_in_inches_is_the_same_job_in_millimetres(width, height, depth, clearance):
    def job(unit, spelled):
        head = f'units = "{unit}"\nsmallest = "1/32 in"\n'
        rest = GOOD[GOOD.index("[stock.cherry]") : GOOD.index("[[drawer]]")].replace("sheet = [60, ", 'sheet = ["60 in", ')
        rest = rest.replace('"3/4"', f'"{spelled(48)}"').replace('"1/2"', f'"{spelled(32)}"').replace("0.483", f'"{spelled(31)}"')
        rest = rest.replace('"1/4"', f'"{spelled(16)}"').replace('"60"', f'"{spelled(60 * 64)}"')
        opening = f'width = "{spelled(width)}", height = "{spelled(height)}", depth = "{spelled(depth)}"'
        return read_job(f'{head}{rest}side-clearance = "{spelled(clearance)}"\n[[drawer]]\nopening = {{ {opening} }}\n', "x.toml")

    def in_mm(n):
        exact = n * MM_PER_INCH / 64
        return f"{exact.numerator}/{exact.denominator}"

    inch, metric = job("inch", lambda n: f"{n}/64"), job("mm", in_mm)
    assert metric.drawers[0].opening == inch.drawers[0].opening
    assert metric.stocks["birch"].thickness == inch.stocks["birch"].thickness
    assert metric.drawers[0].shop.practice.length("side clearance") == inch.drawers[0].shop.practice.length("side clearance")


@given(sixty_fourths)
def test_a_line_is_told_for_a_place_below_any_key(depth):
    rows = GOOD.replace('depth = "20"', f'depth = "{depth}/64"')
    found = key_lines(rows)
    assert line_of(("drawer", 0, "opening", "depth", "more"), found) == found["drawer", 0, "opening", "depth"] == 25
