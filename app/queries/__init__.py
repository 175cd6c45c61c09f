"""What pages show: read, compute, return a frozen overview. Nothing commits."""
