"""`python -m sizewright`."""

from sizewright.cli.main import main

if __name__ == "__main__":  # a process that helps to read imports this module too
    raise SystemExit(main())
