"""Uses of the street: each changes a document, or gathers several, and runs the street again."""
