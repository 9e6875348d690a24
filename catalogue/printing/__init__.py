"""From records to paper: cards, labels and sheets as PDF."""
