"""``python -m joinlay``: the same as ``joinlay``."""

from joinlay.cli import main

if __name__ == "__main__":
    main()
