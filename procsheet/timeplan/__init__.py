"""When each step begins and ends, with so many vessels, people and balances: a time plan from the trace."""
