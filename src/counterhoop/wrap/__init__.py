"""New wrap on a shell: what to cut, from which sheet, where its seam hides, how it is glued."""
