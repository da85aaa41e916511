"""What a call looks like on paper: pictures of findings and the outputs made from one record."""
