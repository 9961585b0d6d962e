"""Campaigns: long runs of chance and force against the real program, by a seed and a count.

    python -m tests.campaigns.NAME --seed 1 --count 500

A campaign is a module here with ``SHORT`` (the count of its short form, which runs with the tests), a docstring whose
first line says what it does to the program, and ``run(seed, count)``, which gives a `Report`. It ends with exit code 1
where something was lost, froze or crashed.
"""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
"""A campaign needs no screen, and takes none."""
