"""Rivets, solid and blind: choice, strength, layout, setting and cost; calculations only, no plot, no widget."""
