"""Plateset: from a coach's program files to a site people can train from."""

__version__ = "0.1.0"
