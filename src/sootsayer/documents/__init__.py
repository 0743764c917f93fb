"""Files in and out: one YAML loader, nodes that know their place, located problems, safe writing."""
