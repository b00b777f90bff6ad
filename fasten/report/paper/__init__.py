"""What is printed and taken to the car: the work sheet on two pages, and templates at 1:1."""
