"""What takes seconds to draw and several workers look at: drawn once in a run of the tests, and kept on disk until it ends.

A worker takes from the folder what another has put there. Two that want the same thing at once both draw it: the later one's
stays, and is the same.
"""

import os
import pickle
from functools import wraps
from hashlib import sha256
from pathlib import Path


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

    What it is given and what it gives must be fit to be pickled.
    """
    name = f"{function.__module__}.{function.__qualname__}"

    @wraps(function)
    def called(*given, **more):
        asked = sha256(pickle.dumps((given, more))).hexdigest()
        return kept(f"{name} {asked}", lambda: function(*given, **more))

    return called
