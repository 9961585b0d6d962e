"""A viewer's comment becomes facts, a small episode, the same decisions as for the presenter's car, and a reply."""
