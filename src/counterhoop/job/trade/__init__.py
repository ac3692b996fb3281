"""Buying and selling: what a drum is worth by the shop's own sales, whether it brings more whole,
parted out or restored, what may be paid for it, how it is told to a buyer, what to ask before it
goes abroad.
"""
