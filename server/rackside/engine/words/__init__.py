"""The engine's sentences, one file per language."""
