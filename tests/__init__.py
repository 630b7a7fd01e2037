"""The tests; `support` reads the tables that several of them share."""
