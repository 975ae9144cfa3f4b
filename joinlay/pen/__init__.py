"""What every drawing is made with: marks in exact millimetres, lettering, dimensions, hatching, and where words find room."""
