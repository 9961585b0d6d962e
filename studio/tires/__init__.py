"""What a tire is and does: numbers in, numbers out. Knows no episode and no table; limits come as arguments."""
