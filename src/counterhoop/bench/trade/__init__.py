"""Buying and selling: the shop's own sales, what a drum is worth by them, which way of selling it
pays and what to pay for it, its listing from the record, what to ask before it is posted abroad.
"""
