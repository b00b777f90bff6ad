"""What more than one page is made of."""
