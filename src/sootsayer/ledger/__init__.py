"""Records: a verdict as it was given, kept so that it can be given again years later."""
