"""The printable report: one page for the customer, one for the file."""
