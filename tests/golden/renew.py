"""Renews the goldens and shows what changed, text by text: ``python -m tests.golden.renew [KIND ...] [--show]``."""

import argparse

from tests.golden.kept import KINDS, as_read_back, changes, keep, kept


def main() -> None:
    """Write what the program gives now; with ``--show`` only say how it differs."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("kinds", nargs="*", metavar="KIND", help=f"these only, of {', '.join(KINDS)}")
    parser.add_argument("--show", action="store_true", help="write nothing")
    wanted = parser.parse_args()
    if unknown := set(wanted.kinds) - set(KINDS):
        parser.error(f"{sorted(unknown)[0]!r} was given, expected {', '.join(KINDS)}")
    for kind in wanted.kinds or KINDS:
        now = as_read_back(KINDS[kind]())
        lines = list(changes(kept(kind), now))
        print("\n".join((f"== {kind}: {len(lines)} lines came, went or head them", *lines)))
        if not wanted.show:
            keep(kind, now)


if __name__ == "__main__":
    main()
