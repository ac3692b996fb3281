"""The whole store as a folder that a person can read, and a store made of it again."""
