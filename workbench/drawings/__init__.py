"""Drawings: true to geometry, built once, then moved. They compute nothing of the trade."""
