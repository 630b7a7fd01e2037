"""Scales to practise on: how each is built, where its lines stand at a setting, and what it then reads. All exact.

`catalogue` lists the constructions; `exercises` draws settings; `explain` says how a reading comes about.
"""
