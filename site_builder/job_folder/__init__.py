"""The folder of a job: its own small binder on screen and on paper, from a job worked out."""
