"""The mount points: the question as a sentence, their list, the answer."""
