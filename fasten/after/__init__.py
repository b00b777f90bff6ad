"""After fitting: what to do about damage, proved as any joint is."""
