"""How long a press takes, beside the least that the same libraries need: ``python -m tests.benchmarks``."""
