"""A person's own logbook: a small book on paper, from the marks in the shop's books."""
