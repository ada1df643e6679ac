"""Draws the demo guide's photographs from what its records say of each piece."""
