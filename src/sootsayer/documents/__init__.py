"""Files in and out: one YAML loader, nodes that know their place, problems, safe writing."""
