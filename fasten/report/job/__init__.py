"""What is told of a job: its list, work sheet, records and sizes."""
