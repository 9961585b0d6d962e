"""Charts: matplotlib figures whose drawing calls become marks of a scene."""
