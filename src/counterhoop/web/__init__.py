"""Requests in; pages, JSON and text out."""
