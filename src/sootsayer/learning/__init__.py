"""What an archive of cases teaches a person: rates, calibration, draws."""
