"""Traditional block designs: their names, drafting and drawing."""
