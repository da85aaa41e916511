"""What probably happened: priors, facts and what shows them as data; the weighing, and the next test, as formulas."""
