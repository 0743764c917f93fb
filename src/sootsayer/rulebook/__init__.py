"""Trade knowledge: packs on disk, checked, compiled into one rulebook."""
