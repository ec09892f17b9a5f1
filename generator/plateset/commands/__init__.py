"""The commands of the command line that stand in modules of their own, one a module."""
