"""An archive: a folder of cases, read one after the other in flat memory."""
