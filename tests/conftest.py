"""What all tests share: how hypothesis draws its cases.

At the bench a run draws fresh cases and keeps the ones that failed. Where CI is set the cases are the same
every time, so that a failure is somebody's change and never the luck of the draw.
"""

import os

from hypothesis import HealthCheck, settings

settings.register_profile("bench", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, database=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("ci" if os.environ.get("CI") else "bench")
