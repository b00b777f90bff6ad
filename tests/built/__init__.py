"""Parts of joints that tests build by hand."""
