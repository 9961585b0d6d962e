"""A desktop studio for a person who makes videos explaining tire maintenance."""

__version__ = "0.1.0"
