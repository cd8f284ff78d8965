"""``python -m twostroke``: the same as the command ``twostroke``."""

from twostroke.cli import main

if __name__ == "__main__":
    main()
