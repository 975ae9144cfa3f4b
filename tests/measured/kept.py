"""What takes seconds to draw and several workers look at: drawn once in a run of the tests, and kept on disk until it ends.

A worker takes from the folder what another has put there. Two that want the same thing at once both draw it: the later one's
stays, and is the same.
"""

import os
import pickle
from dataclasses import fields
from functools import wraps
from hashlib import sha256
from pathlib import Path

from joinlay.jobs.plan import Plan


def kept(name, make):
    """What ``make`` gives, or what it gave in another worker of this run under the same name."""
    folder = os.environ.get("JOINLAY_TESTS_KEPT")
    if not folder:
        return make()
    place = Path(folder) / sha256(name.encode()).hexdigest()
    if place.exists():
        return pickle.loads(place.read_bytes())
    made = make()
    new = place.with_name(f"{place.name}.{os.getpid()}")
    new.write_bytes(pickle.dumps(made))
    new.replace(place)
    return made


def once(function):
    """``function``, which always gives the same for the same, called once for it in a run of the tests.

    What it is given and what it gives must be fit to be pickled; of a plan that is given it goes by what the plan was made of,
    whatever has been worked out of it since.
    """
    name = f"{function.__module__}.{function.__qualname__}"

    @wraps(function)
    def called(*given, **more):
        asked = pickle.dumps(([_made_of(one) for one in given], {word: _made_of(one) for word, one in more.items()}))
        return kept(f"{name} {sha256(asked).hexdigest()}", lambda: function(*given, **more))

    return called


def _made_of(given):
    return [getattr(given, one.name) for one in fields(given) if one.init] if isinstance(given, Plan) else given
