"""The order of the cards: cutters, then fences, then heights, then walks, with the cuts of a joint together (MS-3)."""

from functools import cache
from operator import add
from random import Random

import pytest

from joinlay.settings.ordering import MachineStand, best_order, cost_of


def step(cutter, fence, height, *, machine="table", then=None, joints="a"):
    return MachineStand(machine, (cutter, fence, height), (cutter, *then) if then else (cutter, fence, height), frozenset(joints))


def test_nothing_to_order():
    assert best_order([], frozenset()) == ((), True)


def test_cutters_are_changed_least():
    steps = [step("1/4", 1, 1), step("1/2", 1, 1), step("1/4", 2, 1), step("1/2", 2, 1)]
    order, is_proved = best_order(steps, frozenset())
    assert is_proved
    assert order == (0, 2, 1, 3)
    assert cost_of(steps, order)[0] == 2
    assert cost_of(steps, range(4))[0] == 4


def test_then_fences_then_heights():
    steps = [step("1/4", 1, 1), step("1/4", 2, 1), step("1/4", 1, 2), step("1/4", 2, 2)]
    order, _ = best_order(steps, frozenset())
    assert order == (0, 2, 3, 1)  # the height is changed once more rather than the fence
    assert cost_of(steps, order)[:3] == (1, 2, 3)


def test_a_card_of_two_passes_leaves_the_fence_where_the_next_begins():
    steps = [step("1/4", 2, 1), step("1/4", 1, 1, then=(2, 1))]
    assert best_order(steps, frozenset())[0] == (1, 0)


def test_what_must_come_first_does_even_if_it_costs_a_cutter():
    steps = [step("1/4", 1, 1), step("1/2", 1, 1), step("1/4", 2, 1)]
    order, _ = best_order(steps, frozenset({(0, 1), (1, 2)}))
    assert order == (0, 1, 2)
    assert cost_of(steps, order)[0] == 3


def test_each_machine_stays_as_it_was_left():
    steps = [step("1/4", 1, 1), step("4 mm", 1, 1, machine="mortiser"), step("1/4", 1, 1)]
    assert cost_of(steps, (0, 1, 2))[:4] == (2, 2, 2, 3)
    assert cost_of(steps, (0, 2, 1))[:4] == (2, 2, 2, 2)
    assert best_order(steps, frozenset())[0] == (0, 2, 1)


def test_the_cuts_of_a_joint_stand_together_where_that_costs_nothing():
    steps = [
        step("1/4", 1, 1, joints="a"),
        step("1/4", 2, 1, joints="b"),
        step("1/4", 3, 1, joints="a"),
        step("1/4", 4, 1, joints="b"),
    ]
    order, _ = best_order(steps, frozenset())
    assert order == (0, 2, 1, 3)
    assert cost_of(steps, order)[4] == 1


def test_a_job_past_all_patience_is_ordered_all_the_same_and_says_so():
    chance = Random(3)
    steps = [
        step(
            chance.randrange(6),
            chance.randrange(7),
            chance.randrange(4),
            then=(chance.randrange(7), chance.randrange(4)),
            joints=chance.sample("abcdefghij", 2),
        )
        for _ in range(40)
    ]
    before = frozenset((n, n + 20) for n in range(20))
    # What comes after patience is the same however long it lasts; it takes ten seconds at its usual length.
    order, is_proved = best_order(steps, before, patience=400)
    assert not is_proved
    assert sorted(order) == list(range(40))
    assert all(order.index(i) < order.index(j) for i, j in before)


#: What is done, the last card at each machine, and the last of all: with the least it costs to come so far.
Reached = dict[tuple[frozenset[int], tuple[int, ...], int], tuple[int, ...]]


def fewest_changes(steps, before):
    """The first four figures of the least cost there is, by working forward over every set of cards that can be done."""

    @cache
    def adds(standing, n):
        """What card ``n`` adds to the cost of those that stand last at their machines."""
        more, less = cost_of(steps, (*standing, n))[:4], cost_of(steps, standing)[:4]
        return tuple(b - c for b, c in zip(more, less, strict=True))

    best: Reached = {(frozenset(), (), -1): (0, 0, 0, 0)}
    for _ in steps:
        onward: Reached = {}
        for (done, standing, _last), cost in best.items():
            for n in set(range(len(steps))) - done:
                if all(i in done for i, j in before if j == n):
                    after = (*(m for m in standing if steps[m].machine != steps[n].machine), n)
                    total = tuple(map(add, cost, adds(standing, n)))
                    key = (done | {n}, after, n)
                    onward[key] = min(onward.get(key, total), total)
        best = onward
    return min(best.values())


@pytest.mark.parametrize("seed", range(6))
def test_a_long_list_has_the_fewest_changes_there_can_be(seed):
    """Past nine cards the search takes short cuts; against every set of cards there is, it still finds the fewest changes."""
    chance = Random(seed)
    steps = []
    for _ in range(10):
        begin = (chance.randrange(3), chance.randrange(3), chance.randrange(2))
        then = (chance.randrange(3), chance.randrange(2)) if chance.random() < 0.4 else None
        steps.append(
            step(*begin, machine=chance.choice(["table", "table", "mortiser"]), then=then, joints=chance.sample("abcd", 2))
        )
    before = frozenset((i, j) for j in range(10) for i in range(j) if chance.random() < 0.08)
    order, is_proved = best_order(steps, before)
    assert is_proved
    assert all(order.index(i) < order.index(j) for i, j in before)
    assert cost_of(steps, order)[:4] == fewest_changes(steps, before)
