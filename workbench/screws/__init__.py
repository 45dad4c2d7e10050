"""Screws that measure, move and clamp: calculations only, no plot, no widget."""
