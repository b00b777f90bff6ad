"""What is shown of a job: its list, work sheet, records and sizes."""
