"""`python -m sizewright`."""

from sizewright.cli.main import main

raise SystemExit(main())
