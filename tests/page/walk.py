"""Walks one journey through the page.

    python walk.py JOURNEY PROGRAM CHROMIUM CHROMEDRIVER PICTURES

Ends with 0 where everything was as it has to be, else says what was not and leaves a picture of it.
"""

import sys
import tempfile
import traceback
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

import journeys
import many
import views
from page import Means


def main(journey, program, chromium, driver, pictures):
    walked = next(getattr(part, journey) for part in (journeys, many, views) if hasattr(part, journey))
    with tempfile.TemporaryDirectory(prefix="page-") as folder:
        means = Means(Path(program), chromium, driver, Path(pictures), Path(folder), journey)
        try:
            walked(means)
            return 0
        except Exception:
            traceback.print_exc()
            means.picture_of_failure()
            return 1
        finally:
            means.end()


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
