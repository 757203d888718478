"""The layout engine: random jobs held against a predicate of another kind, planted faults, the same layout twice."""
