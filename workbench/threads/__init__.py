"""Screw threads: call-outs, geometry, limits, gauging and strength; calculations only, no plot, no widget."""
