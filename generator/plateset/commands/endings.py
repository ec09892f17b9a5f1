"""How a command ends, as told in its help."""

STOPPED, UNREADABLE, UNWRITABLE = 1, 3, 4
