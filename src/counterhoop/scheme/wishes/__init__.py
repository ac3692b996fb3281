"""One file a wish: from a draft to the drafts that meet it."""
