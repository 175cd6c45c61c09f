"""What a whole season of a practical says about its examiners, its pass mark and the trust a score deserves."""
