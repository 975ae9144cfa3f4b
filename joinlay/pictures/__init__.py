"""The piece as it is seen: from its sides, cut through, in detail, part by part. Nothing is measured from a picture."""
