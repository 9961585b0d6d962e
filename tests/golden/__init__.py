"""What the program gives today, kept as text: a change of its shape must change nothing here, or say what and why."""
