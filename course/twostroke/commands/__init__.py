"""Subcommands of ``twostroke``, one module for each kind of work."""
