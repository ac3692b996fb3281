"""From as found and a wish to schemes: rows, best reuse of holes, findings, ranking, the kit."""
