"""The author's preview: the pages as they will be, pressed anew at every save, with the proof beside them."""
