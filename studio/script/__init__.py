"""The script: talking points with live numbers, how long they run, and what in them nothing backs. Pure."""
