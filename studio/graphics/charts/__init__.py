"""Charts: planes of values whose lines, dots and surfaces are marks of a scene."""
