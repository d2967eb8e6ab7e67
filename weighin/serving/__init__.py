"""The web server of the site: waitress, with lanes that readers and stations cannot fill for each other.

It knows nothing of Django: it is given an application and the words for who comes when it is full.
"""
