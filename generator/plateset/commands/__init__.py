"""The commands, a module each, so that one command loads only what it uses."""
