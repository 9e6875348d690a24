"""Finding quilts: questions read, texts indexed, facts counted, results in order."""
