"""What the coach wrote: files read, checked, and handed on as one frozen :class:`Manuscript`."""
