"""The pages, a file for each sheet or thing that a person looks at."""
