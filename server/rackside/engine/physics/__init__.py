"""Formulas only: floats in, floats out, each with its unit and source."""
