"""A practice sheet of its own: for the pencil with its key apart, or as one page that checks."""
