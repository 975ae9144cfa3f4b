"""What takes seconds to draw and several workers look at: drawn once in a run of the tests, and kept on disk until it ends.

A worker takes from the folder what another has put there. Two that want the same thing at once both draw it: the later one's
stays, and is the same.
"""

import os
import pickle
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
