"""Practice sheets: exercises with fresh numbers, and their keys by the formulas of the book."""
