"""What leaves the house: files for the edit, for print and for publishing."""
