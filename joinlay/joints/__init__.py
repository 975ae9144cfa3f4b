"""One joint a file, blind to each other: each works its sizes out and puts its cuts on both boards."""
