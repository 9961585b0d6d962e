"""How a picture comes to be on the screen: the general build-up, and what some pictures do besides."""
