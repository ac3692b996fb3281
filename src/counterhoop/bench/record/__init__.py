"""What goes out with a drum: its record, its care, its folder of plain files, its bills."""
