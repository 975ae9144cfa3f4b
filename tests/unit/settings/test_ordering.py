"""The order of the cards: cutters, then fences, then heights, then walks, with the cuts of a joint together (MS-3)."""

from random import Random

from joinlay.settings.ordering import Step, best_order, cost_of


def step(cutter, fence, height, *, machine="table", then=None, joints="a"):
    return Step(machine, (cutter, fence, height), (cutter, *then) if then else (cutter, fence, height), frozenset(joints))


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
    order, is_proved = best_order(steps, before)
    assert not is_proved
    assert sorted(order) == list(range(40))
    assert all(order.index(i) < order.index(j) for i, j in before)
