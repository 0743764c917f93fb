"""Rich renderables: data in, renderable out; nothing is decided here."""
