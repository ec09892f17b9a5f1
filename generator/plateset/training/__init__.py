"""What it means: pure computations from definitions to plans, volumes, times and marks. No file, clock or screen."""
