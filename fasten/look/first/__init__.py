"""The first line of every way to read a question: the one fact that was asked for, or what the thing is.

`asked` takes a question to the module for what it asks of; `entries` is the line where nothing was asked.
"""
