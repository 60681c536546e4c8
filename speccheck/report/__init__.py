"""Reports: findings and facts put into words and formats. A report decides nothing."""
