"""``python -m reportgen``."""

from reportgen.cli import main

if __name__ == "__main__":
    main()
