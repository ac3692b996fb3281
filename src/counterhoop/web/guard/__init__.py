"""The guard: what may reach the pages, who may, and what answers may not give away.

One rule a file; ``stack`` says in which order they look at a request.
"""
