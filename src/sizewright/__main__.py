"""`python -m sizewright`."""

from sizewright.cli.main import command

if __name__ == "__main__":  # a process that helps to read imports this module too
    raise SystemExit(command())
