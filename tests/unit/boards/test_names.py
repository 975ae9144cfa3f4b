"""Names in few words."""

import pytest

from joinlay.boards.names import in_few_words, natural


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ([], ""),
        (["case top"], "case top"),
        (["drawer 1 back"], "drawer 1 back"),
        (["drawer 1 back", "drawer 2 back"], "drawer 1 and 2 back"),
        (["drawer 3 back", "drawer 1 back", "drawer 2 back"], "drawer 1 to 3 back"),
        (["drawer 1 back", "drawer 3 back", "drawer 4 back", "drawer 5 back"], "drawer 1 and 3 to 5 back"),
        (["drawer 1 back", "drawer 3 back", "drawer 5 back"], "drawer 1, 3 and 5 back"),
        (["drawer 1 left side", "drawer 1 right side"], "drawer 1 left and right side"),
        ([f"drawer {d} {hand} side" for d in (1, 2) for hand in ("left", "right")], "drawer 1 and 2 left and right side"),
        (["drawer 2 left side", "case", "drawer 2 right side"], "drawer 2 left and right side, case"),
        (["drawer 2 left side", "drawer 3 right side"], "drawer 2 left side, drawer 3 right side"),
        (["upright", "uleft"], "upright, uleft"),
        (["left left", "right left"], "left and right left"),
        ([f"drawer {d} tenon {n}" for d in (1, 2, 3) for n in (1, 2, 3)], "drawer 1 to 3 tenon 1 to 3"),
        (["drawer 1 tenon 1", "drawer 1 tenon 2", "drawer 2 tenon 1"], "drawer 1 tenon 1 and 2, drawer 2 tenon 1"),
        (["drawer top back", "drawer 10 back"], "drawer top back, drawer 10 back"),
        (["a 1 b 2 c", "a 1"], "a 1 b 2 c, a 1"),
        (["drawer 01 back", "drawer 1 back", "drawer 2 back"], "drawer 01 back, drawer 1 and 2 back"),
    ],
)
def test_in_few_words(names, said):
    assert in_few_words(names) == said


def test_natural_order_counts():
    assert sorted(["drawer 10", "drawer 9", "case", "drawer 1 b", "drawer 1 a"], key=natural) == [
        "case", "drawer 1 a", "drawer 1 b", "drawer 9", "drawer 10",
    ]  # fmt: skip
