"""The briefing: one page for every boat, from the event's water, date, temperature and rules.

brief      what it says, section by section
cautions   what must stand beside it, whatever the event
"""
