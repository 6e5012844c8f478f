"""Papers beside the sheet: the labels of the containers, and the weighings and steps as tables to fill in."""
