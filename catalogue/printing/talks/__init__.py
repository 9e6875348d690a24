"""Talks on paper and on the wall: speaker's sheet, handout, slides, pull list."""
