"""Reads the tables in resources/reference: numbers that others published, each with its source and standing."""

from studio.reference.rows import numbers
from studio.reference.table import TableError
from studio.reference.tables import Tables, load_tables

__all__ = ["TableError", "Tables", "load_tables", "numbers"]
