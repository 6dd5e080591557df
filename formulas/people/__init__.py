"""Who has learned what, who signed it, and who may work alone."""
