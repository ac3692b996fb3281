"""Work that takes longer than a page may: done beside the pages, watched, stopped, found again."""
