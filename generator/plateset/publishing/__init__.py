"""What comes out: views, pages, sheets and the press. The only floor that writes."""
