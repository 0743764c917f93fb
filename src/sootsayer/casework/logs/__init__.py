"""Live-data logs: what kind of file it is, which column is what, and its steady windows."""
