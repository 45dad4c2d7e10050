"""The instructor's tool: releases lessons, collects, marks, explains, records and reports.

Run it with `python -m instructor VERB`; `python -m instructor --help` lists the verbs.
"""
