"""What fuzzing under the test run and by hand share."""
