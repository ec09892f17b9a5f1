"""Marks: what a proof finds, each rule a small function over one :class:`~plateset.training.marks.mark.Case`."""
